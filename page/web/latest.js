// One job at a time.

/** Runs one job at a time; of those that come meanwhile only the last. What it returns is
 *  done when all of it is, with what has been asked for until then: whoever waits for it
 *  sees nothing older than what there was when it was asked for. */
export function latestOnly(job) {
  let going = null;
  let next = null;
  const work = async () => {
    while (next !== null) {
      const given = next;
      next = null;
      try {
        await job(...given);
      } catch (error) {
        // One that fails is told, and holds up none behind it.
        reportError(error);
      }
    }
    going = null;
  };
  return function run(...given) {
    next = given;
    going ??= work();
    return going;
  };
}
