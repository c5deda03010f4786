import type { ComponentChildren } from 'preact';
import { CareShape, NoteShape, WrongShape } from './noticeShapes.tsx';

const KINDS = {
  alarm: { Shape: WrongShape, word: 'Wrong' },
  care: { Shape: CareShape, word: 'Take care' },
  plain: { Shape: NoteShape, word: 'Note' },
} as const;

/** Something to be read: its weight is told by a shape and a word, the colour only helps. */
export function Note(props: {
  readonly kind: keyof typeof KINDS;
  readonly word?: string;
  readonly children: ComponentChildren;
}) {
  const { Shape, word } = KINDS[props.kind];
  return (
    <div class={`note note-${props.kind}`} role={props.kind === 'alarm' ? 'alert' : undefined}>
      <Shape />
      <div>
        <strong>{props.word ?? word}.</strong> {props.children}
      </div>
    </div>
  );
}
