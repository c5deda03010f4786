/** Who moves the wheel of a rehearsal: the hand at this page or at another; nothing else. */
import { describe, expect, it } from 'vitest';
import { WheelOwner } from '../../client/wheel/wheelOwner.ts';

/** Turned here to 15.4 degrees, told of on the way, and known to the run; half a minute ago. */
function ours(): WheelOwner {
  const owner = new WheelOwner(false);
  owner.told(undefined, 0);
  for (const deg of [5, 10, 15, 15.4]) {
    owner.turned(1000);
    owner.sent(deg);
  }
  owner.told(15.4, 1100);
  return owner;
}

describe('the wheel of a rehearsal', () => {
  it('is not moved by what the run knew of it before a loss', () => {
    const owner = ours();
    expect(owner.told(15, 30_000)).toBe(false);
    expect(owner.told(15, 60_000)).toBe(false);
    expect(owner.maySay(15.4)).toBe(true);
  });

  it('opened anew, keeps what its hand had turned it to, and says so only when the run was heard', () => {
    const owner = new WheelOwner(true);
    expect(owner.maySay(15.4)).toBe(false);
    expect(owner.told(15, 5000)).toBe(false);
    expect(owner.told(15, 5020)).toBe(false);
    expect(owner.maySay(15.4)).toBe(true);
  });

  it('opened for the first time, stands where the run knows it to stand', () => {
    const owner = new WheelOwner(false);
    expect(owner.told(15.4, 5000)).toBe(true);
    expect(owner.maySay(0)).toBe(false);
    expect(owner.maySay(15.4)).toBe(true);
  });

  it('goes with another page that turns it, once it is let go of here', () => {
    const owner = ours();
    owner.turned(30_000);
    expect(owner.told(16.2, 30_500)).toBe(false);
    expect(owner.told(17.1, 40_000)).toBe(true);
    expect(owner.maySay(15.4)).toBe(false);
  });

  it('speaks first of a run of which no tilt is known', () => {
    const owner = new WheelOwner(false);
    expect(owner.told(undefined, 0)).toBe(false);
    expect(owner.maySay(0)).toBe(true);
  });
});
