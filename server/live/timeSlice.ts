/** Work for so long at a time: a reading that comes meanwhile does not wait longer. */
const AT_ONCE_MS = 2;

/** The loop goes round so often between two pieces: a socket gives one frame a round, and must not fall behind. */
const ROUNDS_BETWEEN = 8;

const waiting: (() => void)[] = [];
let isPumping = false;
let roundsLeft = 0;

/** One piece in some turns of the event loop, of whatever work: many who ask at once do not add up. */
function turn(): Promise<void> {
  return new Promise((resolve) => {
    waiting.push(resolve);
    if (isPumping) return;
    isPumping = true;
    setImmediate(pump);
  });
}

function pump(): void {
  if (roundsLeft > 0) roundsLeft -= 1;
  else {
    waiting.shift()?.();
    roundsLeft = ROUNDS_BETWEEN;
  }
  isPumping = waiting.length > 0;
  if (isPumping) setImmediate(pump);
}

/** Goes through the steps of some work, and lets the run in progress have its turn between them. Gives what the work gives. */
export async function inTimeSlices<T>(steps: Generator<void, T>): Promise<T> {
  for (;;) {
    await turn();
    const untilMs = performance.now() + AT_ONCE_MS;
    while (performance.now() < untilMs) {
      const { done, value } = steps.next();
      if (done) return value;
    }
  }
}
