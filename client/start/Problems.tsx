import type { Problem } from '../../server/core/errors.ts';
import type { Refusal } from '../kit/link/api.ts';
import { WrongShape } from '../kit/parts/noticeShapes.tsx';

/** Everything that is wrong with a job, each with its place, what was found and what is wanted. */
export function Problems(props: {
  readonly name: string;
  readonly refusal: Refusal;
  readonly kept: string | null;
  readonly onDismiss: () => void;
}) {
  const { problems, error } = props.refusal;
  return (
    <section class="problems" role="alert">
      <div class="row problems-head">
        <h2>
          <WrongShape /> Not planned: {props.name}
        </h2>
        <button type="button" onClick={props.onDismiss}>
          Close
        </button>
      </div>
      {problems.length === 0 ? (
        <p>{error.message}</p>
      ) : (
        <div class="scroll">
          <table>
            <thead>
              <tr>
                <th scope="col">Where</th>
                <th scope="col">Found</th>
                <th scope="col">Wanted</th>
              </tr>
            </thead>
            <tbody>
              {problems.map((problem) => (
                <tr key={`${placeOf(problem)} ${problem.code} ${problem.found}`}>
                  <th scope="row">{placeOf(problem)}</th>
                  <td>{problem.found}</td>
                  <td>{problem.wanted}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {props.kept !== null && <p class="soft">The plan of “{props.kept}” is still here, below.</p>}
    </section>
  );
}

function placeOf({ at }: Problem): string {
  const row = at.row === undefined ? undefined : `row ${at.row}`;
  const column = at.column === undefined ? undefined : `column ${at.column}`;
  return [at.file, row, column, at.field].filter((part) => part !== undefined).join(', ') || 'job';
}
