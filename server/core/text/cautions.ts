/** What is said wherever the work is planned or done. It advises; the saw's own manual and the rules of the place go first. */
export const CAUTIONS: readonly string[] = [
  "Follow the saw's manual and the rules of your shop and country: they go before anything that is said here.",
  'This program only advises. It moves no machine and is no emergency stop: know where the stop of the saw is, and that both of you can reach it.',
  'Guards and blade guides on and set close to the wood before the blade turns.',
  'Hands out of the line of the blade; push sticks for the last of the stock; support the stock on both sides of the saw.',
  'The tailer takes the halves off and never pulls them through.',
  'When in doubt stop the feed first, hold the tilt, and switch off. Change nothing while the wood stands still in the cut.',
  'Never back the stock out of a running blade: switch off and wait until the blade stands.',
  'Eyes, ears and lungs: glasses, hearing protection that still lets calls through, dust extraction and a mask.',
  'Rehearse without wood first, with the people who will do it, and try the bevel on an offcut.',
];
