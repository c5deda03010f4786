import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** 160 random bits as 40 hexadecimal digits: short enough for a QR code, far beyond guessing. */
export const newKey = (): string => randomBytes(20).toString('hex');

export const isKey = (text: string): boolean => /^[0-9a-f]{40}$/.test(text);

/** A plain SHA-256 is enough: the keys are random, so there is no dictionary to run through. */
export const hashOfKey = (key: string): Buffer => createHash('sha256').update(key).digest();

/** Compares in a time that tells nothing of how much of it was right. */
export const sameHash = (a: Buffer, b: Buffer): boolean => a.length === b.length && timingSafeEqual(a, b);
