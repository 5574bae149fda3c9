#![no_main]

casewright_fuzz::target!(SERVER);
