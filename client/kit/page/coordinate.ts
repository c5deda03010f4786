/** A number in a drawing's markup: to a hundredth of what it is drawn in, so that no text is longer than the eye is sharp. */
export const coordinate = (size: number): string => size.toFixed(2);
