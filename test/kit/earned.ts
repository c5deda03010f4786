/** The demo's marks lie 150 mm apart: after so long the wood is believed to have come from one to the next; half a second is too soon. */
export const EARNED_MS = 900;

/** To be waited for from the answer to a press, or to a mark, until the one `marks` farther on is sent. */
export const untilEarned = (marks = 1): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, marks * EARNED_MS));
