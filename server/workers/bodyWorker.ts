/** What the reading thread does: the bytes of a body in, the request or what is wrong with it out. */
import { type BodyName, type BodyOf, readBody } from '../wire/request/bodies.ts';

export const readLongBody = ({ name, bytes }: { name: BodyName; bytes: Uint8Array }): BodyOf<BodyName> =>
  readBody(name, bytes);
