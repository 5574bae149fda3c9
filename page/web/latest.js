// One job at a time.

/** Runs one job at a time; of those that come meanwhile only the last. */
export function latestOnly(job) {
  let running = false;
  let again = null;
  return async function run(...given) {
    if (running) {
      again = given;
      return;
    }
    running = true;
    try {
      await job(...given);
    } finally {
      running = false;
      if (again) {
        const next = again;
        again = null;
        run(...next);
      }
    }
  };
}
