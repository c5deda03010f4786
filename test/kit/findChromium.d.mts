export function findChromium(
  env?: Readonly<Record<string, string | undefined>>,
  platform?: NodeJS.Platform,
): string | undefined;
