// A voice's thread that dies, hangs, or breaks, as told; otherwise it speaks.
export async function speak({ text }) {
  if (text === 'die') process.exit(3);
  if (text === 'hang') await new Promise(() => {});
  if (text === 'break') throw new Error('the larynx is gone');
  return new Int16Array(2205).fill(1000);
}
