"use strict";
// Only in the copy that `casewright watch --serve` hands out: the page is
// loaded again when the papers are other than those it was made from.
const mine = new URL(document.currentScript.src).search.slice(1);
async function look() {
  try {
    const answer = await fetch("/-/revision", { cache: "no-store" });
    if (answer.ok && (await answer.text()) !== mine) {
      location.reload();
      return;
    }
  } catch {
    // casewright has ended; it may be started again.
  }
  setTimeout(look, 500);
}
setTimeout(look, 500);
