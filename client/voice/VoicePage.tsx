import { useEffect, useState } from 'preact/hooks';
import type { WireError } from '../../server/wire/problem/wireError.ts';
import { Head } from '../kit/parts/Head.tsx';
import { Note } from '../kit/parts/Note.tsx';
import { ChooseList } from './ChooseList.tsx';
import { ChooseVoice } from './ChooseVoice.tsx';
import { type PhraseList, phraseList } from './phraseSource.ts';
import { Recording } from './Recording.tsx';

/** The yard records the voice of its own mate, phrase by phrase: everything that a run says, so that a run can be made with it. */
export function VoicePage() {
  const [query, setQuery] = useState(() => new URLSearchParams(location.search));
  const [list, setList] = useState<PhraseList | null>(null);
  const [isAsked, setAsked] = useState(false);
  const [error, setError] = useState<WireError | null>(null);
  const voice = query.get('voice');

  useEffect(() => {
    void phraseList(query).then((found) => {
      setAsked(true);
      if (found?.ok === true) setList(found.list);
      else if (found !== null) setError(found.error);
    });
  }, []);

  /** In the address, so that a reload or a bookmark comes back to it. */
  function choose(name: string | null): void {
    const next = new URLSearchParams(query);
    if (name === null) next.delete('voice');
    else next.set('voice', name);
    history.replaceState(null, '', `?${next}`);
    setQuery(next);
  }

  return (
    <>
      <Head>
        <a href="/">Start page</a>
      </Head>
      <main class="voice">
        {error !== null && <Note kind="alarm">{error.message}</Note>}
        {isAsked && list === null && error === null && <ChooseList />}
        {list !== null && voice === null && <ChooseVoice list={list} onChoose={choose} />}
        {list !== null && voice !== null && (
          <Recording key={voice} name={voice} list={list} onLeave={() => choose(null)} />
        )}
      </main>
    </>
  );
}
