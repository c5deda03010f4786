import type { RunView } from '../../server/wire/messages.ts';
import { Note } from '../kit/Note.tsx';
import { NOTICE_WORDS } from '../kit/noticeWords.ts';
import type { RunLink } from '../kit/runLink.ts';
import { useStore } from '../kit/store.ts';

/** What must not go unnoticed, told last; it stays until the run's own notice is gone and the next mark has come. */
export function NoticeLine({ link, view }: { readonly link: RunLink; readonly view: RunView }) {
  const told = useStore(link.state, (each) => each.notice);
  const notice = view.notice ?? told?.notice ?? null;
  if (notice === null) return null;
  return (
    <Note kind={notice.code === 'mark-doubled' ? 'care' : 'alarm'} word={NOTICE_WORDS[notice.code]}>
      {notice.message}
    </Note>
  );
}
