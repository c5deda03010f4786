import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export interface SmallDisk {
  readonly dir: string;
  /** Leaves not a byte. */
  fill(): void;
  /** Takes out what `fill` wrote. */
  makeRoom(): void;
}

/** A file system of so many megabytes in memory, which only root may mount. */
export function smallDisk(megabytes: number): SmallDisk {
  const dir = mkdtempSync(join(tmpdir(), 'by-the-mark-small-'));
  const asRoot = (command: string, args: readonly string[]): void => {
    const isRoot = process.getuid?.() === 0;
    execFileSync(isRoot ? command : 'sudo', [...(isRoot ? [] : ['-n', command]), ...args], { stdio: 'ignore' });
  };
  try {
    asRoot('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m,mode=1777`, 'tmpfs', dir]);
  } catch (cause) {
    rmSync(dir, { recursive: true });
    throw new Error('a disk that is really full wants a user who may mount one: run this test as root', { cause });
  }
  onTestFinished(() => {
    asRoot('umount', ['-l', dir]);
    rmSync(dir, { recursive: true });
  });
  const ballast = join(dir, 'ballast');
  return {
    dir,
    fill() {
      const fd = openSync(ballast, 'a');
      try {
        for (let bytes = 1 << 20; bytes >= 1; )
          try {
            // A disk that is nearly full takes a part.
            if (writeSync(fd, Buffer.alloc(bytes)) === 0) bytes >>= 1;
          } catch (error) {
            if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
            bytes >>= 1;
          }
      } finally {
        closeSync(fd);
      }
    },
    makeRoom: () => rmSync(ballast),
  };
}
