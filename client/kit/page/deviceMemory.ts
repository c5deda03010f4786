/** What a device remembers between visits. A browser that forbids storage forgets; nothing breaks. */
export function remember(name: string, value: unknown): void {
  try {
    localStorage.setItem(`by-the-mark.${name}`, JSON.stringify(value));
  } catch {
    // Forbidden or full: the choice holds for this visit.
  }
}

export function recall<T>(name: string, isOne: (value: unknown) => value is T): T | undefined {
  try {
    const text = localStorage.getItem(`by-the-mark.${name}`);
    const value: unknown = text === null ? undefined : JSON.parse(text);
    return isOne(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';

/** The device's own name on the wire, made once. */
export function deviceId(): string {
  const known = recall('device', isText);
  if (known !== undefined) return known;
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  const made = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  remember('device', made);
  return made;
}
