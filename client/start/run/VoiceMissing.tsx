import type { Problem } from '../../../server/core/errors.ts';
import { handOver, type PhraseList } from '../../voice/phraseSource.ts';

export const isOfVoice = ({ at, code }: Problem): boolean => at.field === 'voice' && code === 'missing';

/** As many as are read; the page that records them has them all. */
const SHOWN = 6;

/** What a recorded voice lacks for a run, and the way to record it. */
export function VoiceMissing(props: {
  readonly voice: string;
  readonly problems: readonly Problem[];
  readonly list: () => PhraseList;
}) {
  const { voice, problems, list } = props;
  return (
    <>
      {voice} lacks {problems.length === 1 ? 'one phrase' : `${problems.length} phrases`} of this run:
      <ul>
        {problems.slice(0, SHOWN).map(({ wanted }) => (
          <li key={wanted}>{wanted}</li>
        ))}
        {problems.length > SHOWN && <li>and {problems.length - SHOWN} more</li>}
      </ul>
      <a href={`/voice?plan=here&voice=${encodeURIComponent(voice)}`} onClick={() => handOver(list())}>
        Record them
      </a>
      , or let another voice speak.
    </>
  );
}
