/** One of a few, each with what it means beside it. */
export function Choice<T extends string>(props: {
  readonly name: string;
  readonly legend: string;
  readonly choices: readonly (readonly [T, string, string])[];
  readonly chosen: T;
  readonly onChoose: (chosen: T) => void;
}) {
  return (
    <fieldset class="choice">
      <legend>{props.legend}</legend>
      {props.choices.map(([value, word, meaning]) => (
        <label key={value} class="choice-one">
          <input
            type="radio"
            name={props.name}
            checked={props.chosen === value}
            onChange={() => props.onChoose(value)}
          />
          <span>
            <strong>{word}</strong>
            <span class="soft choice-meaning">{meaning}</span>
          </span>
        </label>
      ))}
    </fieldset>
  );
}
