/**
 * Whether a sawn piece that came out wrong can be saved, and how: the lengthwise shift that suits the frame best, what must be
 * planed off where, or an honest "scrap" with the reason.
 *
 * The measured bevels are faired as a pick-up is. Of all shifts for which the piece covers the frame and no edge has to come under
 * the thinnest allowed, the one is taken whose bevels match best; where that is the best match of all it stands within its error.
 * A piece that was sawn right and measured from the wrong end (reversed and mirrored at once) is only laid end for end.
 */

import { fairPickUp } from '../frame/fairPickUp.ts';
import { interpolate } from '../numeric/interpolate.ts';
import type { Plan } from '../plan/plan.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { bestMatch, type Match, type PieceRow, placesOver, type Taking, taken } from './bestShift.ts';
import { type Planing, planingAt } from './plane.ts';
import { askedOf, type Half, type WantedEdges } from './wantedEdges.ts';

interface SaveOptions {
  readonly half: Half;
  /** How well the bevels were measured; a place that is off by no more is left as it is. */
  readonly errorDeg: number;
  /** Where the piece ends, in the measure of its rows; left out: as the stock was to be. */
  readonly fromMm?: number;
  readonly toMm?: number;
  /** The thinnest edge that planing may leave; left out: the plan's. */
  readonly thinnestEdgeMm?: number;
}

/** By hand bevels are good to half a degree (common practice, no source). */
export const USUAL_ERROR_DEG = 0.5;

type PieceVerdict = 'fits' | 'plane' | 'scrap';
type ScrapReason = 'too-short' | 'mirrored' | 'reversed' | 'too-little-wood';

export interface SavedPlace extends Planing {
  readonly mark: number;
  /** Where the mark comes on the piece, in the measure of its rows. */
  readonly alongMm: number;
  /** False where no bevel was measured: the nearest one is taken to hold. */
  readonly isMeasured: boolean;
  /** Off by no more than it was measured to: nothing to plane. */
  readonly isNear: boolean;
}

export interface SavedPiece {
  readonly format: 'by-the-mark/saved-piece@1';
  readonly title: string;
  readonly units: Plan['units'];
  readonly notation: Plan['notation'];
  readonly half: Half;
  readonly verdict: PieceVerdict;
  readonly reason?: ScrapReason;
  /** How the piece is laid: end for end where it was measured from its other end. */
  readonly taking: 'as sawn' | 'end for end';
  /** Null where no shift was found at all. */
  readonly shift: (Match & { readonly fromMm: number; readonly toMm: number }) | null;
  readonly errorDeg: number;
  readonly thinnestEdgeMm: number;
  readonly mouldedEdge: 'forward' | 'aft';
  /** Marks of the frame, from the heel. */
  readonly places: readonly SavedPlace[];
  readonly most: SavedPlace | null;
  /** Where an edge lacks most wood, if it does. */
  readonly lacks: {
    readonly alongMm: number;
    readonly edge: 'forward' | 'aft';
    readonly mm: number;
    readonly deg: number;
  } | null;
  /** Frame that no measured bevel lies on, at either end. */
  readonly unmeasuredMm: { readonly heel: number; readonly head: number };
  /** Rows left out because they stand off the others: measure again. */
  readonly suspects: readonly { readonly row: number; readonly bevelDeg: number; readonly fairDeg: number }[];
  /** Ends that stand far off what the other rows lead to: in the curve, and to be measured again. */
  readonly measureAgain: readonly { readonly row: number; readonly bevelDeg: number; readonly othersDeg: number }[];
  /** For a drawing: measured (faired) and wanted along the piece. */
  readonly curve: readonly { readonly alongMm: number; readonly haveDeg: number; readonly wantDeg: number }[];
}

/** Undefined for a plan of before, which does not tell how the cut lies. Rows rise along the piece; at least two. */
export function savePiece(plan: Plan, rows: readonly PieceRow[], options: SaveOptions): SavedPiece | undefined {
  const planned = askedOf(plan, options.half);
  if (planned === undefined) return undefined;
  const asked = { ...planned, thinnestEdgeMm: options.thinnestEdgeMm ?? planned.thinnestEdgeMm };
  const tried = (['as sawn', 'end for end'] as const).map((taking) => tryPiece(asked, rows, taking, options));
  const [asSawn, turned] = tried;
  const found = asSawn?.isSaved === true || turned?.isSaved !== true ? asSawn : turned;
  if (found === undefined) return undefined;
  return report(plan, asked, found, rows, options);
}

interface Tried {
  readonly taking: 'as sawn' | 'end for end';
  readonly piece: Piece;
  readonly match: Match | null;
  readonly range: Range;
  readonly isSaved: boolean;
}
interface Range {
  readonly fromMm: number;
  readonly toMm: number;
}

interface Piece {
  readonly rows: readonly PieceRow[];
  readonly suspects: SavedPiece['suspects'];
  readonly measureAgain: SavedPiece['measureAgain'];
  readonly fromMm: number;
  readonly toMm: number;
  bevelDeg(alongMm: number): number;
  thinMm(alongMm: number): number | undefined;
}

function tryPiece(
  asked: WantedEdges,
  given: readonly PieceRow[],
  taking: Tried['taking'],
  options: SaveOptions,
): Tried {
  const piece = pieceOf(taken(given, taking), options.errorDeg);
  // Its ends are where it says, or as the stock was to be.
  const sum = rowAt(given, 0).alongMm + lastRow(given).alongMm;
  const own = [options.fromMm ?? asked.stockFromMm, options.toMm ?? asked.stockToMm] as const;
  const [endFromMm, endToMm] = taking === 'end for end' ? [sum - own[1], sum - own[0]] : own;
  const range = {
    fromMm: asked.headMm - Math.max(endToMm, piece.toMm),
    toMm: asked.heelMm - Math.min(endFromMm, piece.fromMm),
  };
  const best = bestMatch(piece.rows, asked, range, options.errorDeg);
  const works = (shiftMm: number): boolean => mostLacking(asked, piece, shiftMm, options.errorDeg) === null;
  if (best === null || works(best.shiftMm)) return { taking, piece, match: best, range, isSaved: best !== null };
  const others = placesOver(range.fromMm, range.toMm)
    .filter(works)
    .map((mm) => bestMatch(piece.rows, asked, { fromMm: mm, toMm: mm }, options.errorDeg))
    .filter((match) => match !== null);
  const [first, ...rest] = others;
  if (first === undefined) return { taking, piece, match: best, range, isSaved: false };
  const match = rest.reduce((a, b) => (b.rmsDeg < a.rmsDeg ? b : a), first);
  return { taking, piece, match, range, isSaved: true };
}

function pieceOf(rows: readonly PieceRow[], errorDeg: number): Piece {
  const fair = fairPickUp({
    kind: 'pick-up',
    file: '',
    rows: rows.map(({ alongMm, bevelDeg, weight }) => ({ girthMm: alongMm, bevelDeg, weight })),
    errorDeg,
  });
  const fromMm = rowAt(rows, 0).alongMm;
  const toMm = lastRow(rows).alongMm;
  const thin = rows.flatMap(({ alongMm, thinMm }) => (thinMm === undefined ? [] : [{ alongMm, thinMm }]));
  return {
    rows: rows.filter((_, i) => !fair.isSuspect(i + 1)),
    suspects: fair.suspects.map(({ row, foundDeg, fairDeg }) => ({ row, bevelDeg: foundDeg, fairDeg })),
    measureAgain: fair.measureAgain.map(({ row, foundDeg, othersDeg }) => ({ row, bevelDeg: foundDeg, othersDeg })),
    fromMm,
    toMm,
    // Beyond the rows the end bevels hold: a curve that is carried on would promise what nobody measured.
    bevelDeg: (alongMm) => fair.bevelAtDeg(Math.min(toMm, Math.max(fromMm, alongMm))),
    thinMm: (alongMm) =>
      thin.length === 0
        ? undefined
        : interpolate(
            thin.map((at) => at.alongMm),
            thin.map((at) => at.thinMm),
            alongMm,
          ),
  };
}

const LOOKED_AT = 80;

const placeAt = (asked: WantedEdges, piece: Piece, shiftMm: number, atMm: number): Planing =>
  planingAt(asked, piece.bevelDeg(atMm - shiftMm), asked.bevelDeg(atMm), piece.thinMm(atMm - shiftMm));

/** The place of the frame where an edge has least to give; null where what is left over is nowhere clearly more than the measuring error. */
function mostLacking(asked: WantedEdges, piece: Piece, shiftMm: number, errorDeg: number): SavedPiece['lacks'] {
  let most: SavedPiece['lacks'] = null;
  for (let i = 0; i <= LOOKED_AT; i += 1) {
    const atMm = asked.heelMm + ((asked.headMm - asked.heelMm) * i) / LOOKED_AT;
    const { leftDeg, lacksMm, edge } = placeAt(asked, piece, shiftMm, atMm);
    if (Math.abs(leftDeg) > MATCHES * errorDeg && lacksMm > (most?.mm ?? 0))
      most = { alongMm: atMm - shiftMm, edge, mm: lacksMm, deg: leftDeg };
  }
  return most;
}

function report(
  plan: Plan,
  asked: WantedEdges,
  tried: Tried,
  rows: readonly PieceRow[],
  options: SaveOptions,
): SavedPiece {
  const { piece, match, taking, range } = tried;
  const shiftMm = match?.shiftMm ?? 0;
  const places =
    match === null ? [] : asked.marks.map((mark) => savedPlace(asked, piece, shiftMm, mark, options.errorDeg));
  const planed = places.filter(({ isNear, edgeMm }) => !isNear && edgeMm > 0);
  const most = planed.length === 0 ? null : planed.reduce((a, b) => (b.planeMm > a.planeMm ? b : a));
  const reason = tried.isSaved ? undefined : reasonOf(asked, rows, tried, options);
  return {
    format: 'by-the-mark/saved-piece@1',
    title: plan.title,
    units: plan.units,
    notation: plan.notation,
    half: asked.half,
    verdict: reason !== undefined ? 'scrap' : most === null ? 'fits' : 'plane',
    ...(reason === undefined ? {} : { reason }),
    taking,
    shift: match === null ? null : { ...match, ...range },
    errorDeg: options.errorDeg,
    thinnestEdgeMm: asked.thinnestEdgeMm,
    mouldedEdge: asked.mouldedEdge,
    places,
    most,
    lacks: match === null ? null : mostLacking(asked, piece, shiftMm, options.errorDeg),
    unmeasuredMm: {
      heel: match === null ? 0 : Math.max(0, piece.fromMm + shiftMm - asked.heelMm),
      head: match === null ? 0 : Math.max(0, asked.headMm - piece.toMm - shiftMm),
    },
    suspects: piece.suspects,
    measureAgain: piece.measureAgain,
    curve: curveOf(asked, piece, shiftMm),
  };
}

function savedPlace(
  asked: WantedEdges,
  piece: Piece,
  shiftMm: number,
  { mark, alongMm: atMm }: WantedEdges['marks'][number],
  errorDeg: number,
): SavedPlace {
  const alongMm = atMm - shiftMm;
  const planing = placeAt(asked, piece, shiftMm, atMm);
  const isNear = Math.abs(planing.haveDeg - planing.wantDeg) <= errorDeg;
  return { mark, alongMm, ...planing, isMeasured: alongMm >= piece.fromMm && alongMm <= piece.toMm, isNear };
}

/** What went wrong, where another taking of the piece would match and this one does not. */
function reasonOf(asked: WantedEdges, rows: readonly PieceRow[], tried: Tried, options: SaveOptions): ScrapReason {
  if (tried.match === null) return 'too-short';
  const rmsOf = (taking: Taking): number =>
    bestMatch(pieceOf(taken(rows, taking), options.errorDeg).rows, asked, tried.range, options.errorDeg)?.rmsDeg ??
    Number.POSITIVE_INFINITY;
  const fit = MATCHES * options.errorDeg;
  if (tried.match.rmsDeg <= fit) return 'too-little-wood';
  const [mirrored, reversed] = [rmsOf('mirrored'), rmsOf('reversed')];
  if (Math.min(mirrored, reversed) > fit) return 'too-little-wood';
  return mirrored <= reversed ? 'mirrored' : 'reversed';
}

/** What is off by no more than this many measuring errors may be measuring: rows (root mean square), or a place of the faired curve. */
const MATCHES = 1.5;
const CURVE_PARTS = 120;

function curveOf(asked: WantedEdges, piece: Piece, shiftMm: number): SavedPiece['curve'] {
  return Array.from({ length: CURVE_PARTS + 1 }, (_, i) => {
    const alongMm = asked.heelMm - shiftMm + ((asked.headMm - asked.heelMm) * i) / CURVE_PARTS;
    return { alongMm, haveDeg: piece.bevelDeg(alongMm), wantDeg: asked.bevelDeg(alongMm + shiftMm) };
  });
}
