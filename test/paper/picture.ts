/** A grey picture, and what a camera does to it. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** 0 black, 255 white, row by row. */
  readonly grey: Uint8Array;
}

const at = ({ width, height, grey }: Picture, x: number, y: number): number =>
  x < 0 || y < 0 || x >= width || y >= height ? 255 : (grey[y * width + x] ?? 255);

export function crop(picture: Picture, left: number, top: number, width: number, height: number): Picture {
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) grey[y * width + x] = at(picture, left + x, top + y);
  return { width, height, grey };
}

/** A page that came out of the printer a quarter turned, laid back: what came first is at the left. */
export function layBack({ width: height, height: width, grey: turned }: Picture): Picture {
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y += 1) {
    const column = height - 1 - y;
    for (let x = 0; x < width; x += 1) grey[y * width + x] = turned[x * height + column] as number;
  }
  return { width, height, grey };
}

/** Smeared along the feed (left to right) over so many dots: the mean of what passed while the shutter was open. */
export function smeared(picture: Picture, dots: number): Picture {
  const { width, height } = picture;
  const grey = new Uint8Array(width * height);
  const whole = Math.ceil(dots);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      let sum = 0;
      for (let i = 0; i < whole; i += 1) sum += at(picture, x + i, y) * Math.min(1, dots - i);
      grey[y * width + x] = sum / dots;
    }
  return { width, height, grey };
}

/** Turned about its middle, each dot between the four that it falls on. */
export function turned(picture: Picture, deg: number): Picture {
  const { width, height } = picture;
  const grey = new Uint8Array(width * height);
  const [cos, sin] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1) {
      const [dx, dy] = [x - width / 2, y - height / 2];
      const [fx, fy] = [width / 2 + dx * cos + dy * sin, height / 2 - dx * sin + dy * cos];
      const [x0, y0] = [Math.floor(fx), Math.floor(fy)];
      const [u, v] = [fx - x0, fy - y0];
      grey[y * width + x] =
        (1 - u) * (1 - v) * at(picture, x0, y0) +
        u * (1 - v) * at(picture, x0 + 1, y0) +
        (1 - u) * v * at(picture, x0, y0 + 1) +
        u * v * at(picture, x0 + 1, y0 + 1);
    }
  return { width, height, grey };
}

/** The middle (in dots, fractions and all) of what is dark between two columns, over some rows; NaN where nothing is. */
export function darkMiddle(
  picture: Picture,
  [left, right]: readonly [number, number],
  [top, foot]: readonly [number, number],
): number {
  let [sum, weight] = [0, 0];
  for (let y = Math.round(top); y < foot; y += 1)
    for (let x = Math.round(left); x <= right; x += 1) {
      const dark = 255 - at(picture, x, y);
      sum += dark * (x + 0.5);
      weight += dark;
    }
  return sum / weight;
}

/** The same for rows between two heights, over some columns. */
export function darkMiddleDown(
  picture: Picture,
  [top, foot]: readonly [number, number],
  [left, right]: readonly [number, number],
): number {
  let [sum, weight] = [0, 0];
  for (let y = Math.round(top); y <= foot; y += 1)
    for (let x = Math.round(left); x < right; x += 1) {
      const dark = 255 - at(picture, x, y);
      sum += dark * (y + 0.5);
      weight += dark;
    }
  return sum / weight;
}

/** Whether nothing at all is printed within so many dots of the edges. */
export function isEdgeWhite({ width, height, grey }: Picture, dots: number): boolean {
  const isWhite = (from: number, to: number): boolean => grey.subarray(from, to).every((dot) => dot > 250);
  const rows = Array.from({ length: height }, (_, y) => y * width);
  return (
    isWhite(0, dots * width) &&
    isWhite((height - dots) * width, height * width) &&
    rows.every((row) => isWhite(row, row + dots) && isWhite(row + width - dots, row + width))
  );
}
