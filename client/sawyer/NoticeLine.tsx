import type { NoticeCode } from '../../server/core/run/engine/events.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { NOTICE_WORDS } from '../kit/figures/noticeWords.ts';
import { Note } from '../kit/parts/Note.tsx';

/** What stops nothing. */
const LIGHT: Partial<Readonly<Record<NoticeCode, 'care' | 'plain'>>> = {
  'mark-doubled': 'care',
  'too-soon': 'care',
  'signal-seen': 'plain',
};

/** What must not go unnoticed, told last; the run says when it is mended. */
export function NoticeLine({ view: { notice } }: { readonly view: RunView }) {
  if (notice === null) return null;
  return (
    <Note kind={LIGHT[notice.code] ?? 'alarm'} word={NOTICE_WORDS[notice.code]}>
      {notice.message}
    </Note>
  );
}
