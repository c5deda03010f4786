/** What is to be done with a piece that came out wrong, in sentences. `length`: a length with its unit, as the reader writes it. */
import { measuredDegText } from '../figures/degrees.ts';
import type { Lengths } from '../figures/lengths.ts';
import type { SavedPiece, SavedPlace } from './savePiece.ts';

/** The one sentence that decides. */
export function verdictSentence(saved: SavedPiece, lengths: Lengths): string {
  const piece = `The ${saved.half} wedge`;
  if (saved.verdict === 'fits') return `${piece} can be saved: laid as told, it fits the frame as it is.`;
  if (saved.verdict === 'plane' && saved.most !== null)
    return `${piece} can be saved: laid as told, it wants planing, ${lengths.fine(saved.most.planeMm)} at the most (mark ${saved.most.mark}, ${saved.most.edge} edge).`;
  return `Scrap. ${reasonSentence(saved, lengths)}`;
}

function reasonSentence({ reason, lacks, half, thinnestEdgeMm }: SavedPiece, lengths: Lengths): string {
  switch (reason) {
    case 'too-short':
      return 'No shift lays enough of what was measured on the frame: the piece is too short, or too little of it was measured.';
    case 'mirrored':
      return 'The bevels lean the other way: this is the piece of the other side of the boat, or it was sawn turned over. No shift and no plane mends that; keep it for the other side if you need one there.';
    case 'reversed':
      return 'The bevels run from head to heel: the stock was fed from the wrong end. No shift and no plane mends that.';
    default:
      return lacks === null
        ? `No shift suits the ${half} wedge.`
        : `Wood is missing: even at the best shift the ${lacks.edge} edge lacks ${lengths.fine(lacks.mm)} at ${lengths.along(lacks.alongMm)} along the piece (${measuredDegText(Math.abs(lacks.deg))} of bevel would be left over), and no edge may come under ${lengths.fine(thinnestEdgeMm)}.`;
  }
}

/** How it is laid, what is planed and what to look out for: one sentence each, in the order of doing. */
export function saveSentences(saved: SavedPiece, lengths: Lengths): readonly string[] {
  if (saved.shift === null) return [measureSentence(saved)].filter((text) => text !== '');
  return [
    saved.verdict === 'scrap' ? '' : laySentence(saved, lengths),
    saved.verdict === 'plane' ? planeSentence(saved, lengths) : '',
    saved.verdict === 'scrap' ? '' : leftSentence(saved),
    saved.verdict === 'scrap' ? '' : mouldedSentence(saved, lengths),
    matchSentence(saved, lengths),
    saved.verdict === 'scrap' ? '' : unmeasuredSentence(saved, lengths),
    measureSentence(saved),
  ].filter((text) => text !== '');
}

function laySentence({ taking, shift, places }: SavedPiece, lengths: Lengths): string {
  const shiftMm = shift?.shiftMm ?? 0;
  const turned =
    taking === 'end for end'
      ? 'It was measured from its other end: turn it end for end, and count along it from there. '
      : '';
  const first = places[0];
  const where = first === undefined ? '' : ` Mark ${first.mark} comes at ${lengths.along(first.alongMm)} along it.`;
  if (Math.abs(shiftMm) < 0.5) return `${turned}Leave the marks where they are.${where}`;
  const way = shiftMm > 0 ? 'heel' : 'head';
  return `${turned}Strike all marks anew, ${lengths.along(Math.abs(shiftMm))} nearer to the ${way} end of the piece.${where}`;
}

function planeSentence({ places }: SavedPiece, lengths: Lengths): string {
  const planed = places.filter(isPlaned);
  const edges = [...new Set(planed.map(({ edge }) => edge))].map((edge) => `${edge} edge`).join(' and the ');
  const marks = marksText(planed);
  const thinnest = Math.min(...planed.map(({ thinnestMm }) => thinnestMm));
  return `Plane the sawn face down at the ${edges}, to nothing at the other edge, as the table says (${marks}; square to the finished face). Nowhere does an edge come under ${lengths.fine(thinnest)}. Draw the finished edge with a gauge from the flat first, and try it with the bevel as you go.`;
}

/** Where an edge has no more to give and yet it is no scrap: by little more than the measuring error. */
function leftSentence({ places, errorDeg }: SavedPiece): string {
  const left = places.filter(({ leftDeg }) => Math.abs(leftDeg) > errorDeg);
  if (left.length === 0) return '';
  const most = Math.max(...left.map(({ leftDeg }) => Math.abs(leftDeg)));
  return `At ${marksText(left)} no edge has wood enough: up to ${measuredDegText(most)} may be left over there, little more than it was measured to. Measure there again before you plane.`;
}

/** A moulded edge that is planed comes inboard. */
function mouldedSentence({ places, mouldedEdge, half }: SavedPiece, lengths: Lengths): string {
  if (half !== 'outer') return '';
  const in_ = places.filter((place) => isPlaned(place) && place.edge === mouldedEdge);
  if (in_.length === 0) return '';
  const most = Math.max(...in_.map(({ edgeMm }) => edgeMm));
  return `The moulded edge (${mouldedEdge}) is planed at ${marksText(in_)} and comes in by up to ${lengths.fine(most)}: make the stack as much thicker there, or the frame stands off the planking.`;
}

function matchSentence({ shift, errorDeg, verdict }: SavedPiece, lengths: Lengths): string {
  if (shift === null) return '';
  const known = Number.isFinite(shift.shiftSdMm)
    ? `that tells the shift within about ${lengths.along(2 * shift.shiftSdMm)}`
    : 'the bevel does not change, so that any shift suits as well';
  const off = `the measured bevels stand ${measuredDegText(shift.rmsDeg)} off the frame's (root mean square)`;
  return verdict === 'scrap'
    ? `At the best shift ${off}.`
    : `At this shift ${off}; measured within ${measuredDegText(errorDeg)}, ${known}.`;
}

function unmeasuredSentence({ unmeasuredMm }: SavedPiece, lengths: Lengths): string {
  const ends = (['heel', 'head'] as const).filter((end) => unmeasuredMm[end] >= 1);
  if (ends.length === 0) return '';
  const where = ends.map((end) => `${lengths.along(unmeasuredMm[end])} at the ${end}`).join(' and ');
  return `Nobody measured ${where} of what the frame then needs: measure there before you trust it.`;
}

function measureSentence({ suspects, measureAgain }: SavedPiece): string {
  const left = suspects.map(
    ({ row, bevelDeg, fairDeg }) => `row ${row} (${measuredDegText(bevelDeg)}, fair ${measuredDegText(fairDeg)})`,
  );
  const asked = measureAgain.map(
    ({ row, bevelDeg, othersDeg }) =>
      `row ${row} (${measuredDegText(bevelDeg)}, the others lead to ${measuredDegText(othersDeg)})`,
  );
  return [
    left.length === 0
      ? ''
      : `Left out because ${left.length === 1 ? 'it stands' : 'they stand'} off the others: ${left.join(', ')}. Measure there again.`,
    asked.length === 0 ? '' : `Not left out, but measure again at the end: ${asked.join(', ')}.`,
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

/** "mark 3", "marks 3 to 7" or "marks 3, 5, 6". */
function marksText(places: readonly SavedPlace[]): string {
  const marks = places.map(({ mark }) => mark);
  const [first = 0, last = 0] = [marks[0], marks.at(-1)];
  if (marks.length === 1) return `mark ${first}`;
  return last - first === marks.length - 1 ? `marks ${first} to ${last}` : `marks ${marks.join(', ')}`;
}

/** What is off by more than it was measured to, and has wood to give. */
export const isPlaned = ({ isNear, edgeMm }: SavedPlace): boolean => !isNear && edgeMm > 0;
