import { useStore } from '../kit/link/store.ts';
import { FULL_DB, type Microphone } from './microphone.ts';

const LOWEST_DB = -60;
/** Words whose loudest place stays under this are too quiet; as the server judges it, about. */
const QUIET_DB = -30;

const share = (db: number): number => Math.round(Math.max(0, Math.min(1, 1 - db / LOWEST_DB)) * 1000) / 10;

/** How loud the microphone is: a bar, the last second's loudest place, and what it comes to in a word. */
export function LevelMeter({ microphone }: { readonly microphone: Microphone }) {
  const { peakDb, heldDb } = useStore(microphone.level, (level) => level);
  const [kind, word] =
    heldDb >= FULL_DB ? ['loud', 'Too loud'] : heldDb < QUIET_DB ? ['quiet', 'Quiet'] : ['good', 'Good'];
  return (
    <div class={`meter meter-${kind}`}>
      <svg viewBox="0 0 100 8" preserveAspectRatio="none" role="img" aria-label="Level of the microphone">
        <rect class="meter-ground" width="100" height="8" />
        <rect class="meter-span" x={share(QUIET_DB)} width={share(-3) - share(QUIET_DB)} height="8" />
        <rect class="meter-level" width={share(peakDb)} y="1.5" height="5" />
        <rect class="meter-held" x={Math.max(0, share(heldDb) - 0.6)} width="0.6" height="8" />
      </svg>
      <span class="meter-word">{word}</span>
    </div>
  );
}
