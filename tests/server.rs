//! An editor that talks to the language server as the protocol has it (Language Server
//! Protocol 3.17), mostly without a process between them.

mod asked;
mod burst;
mod client;
mod every_cut;
mod talk;
mod typed;
mod what_is_told;
