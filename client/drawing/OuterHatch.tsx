/** How the outer wedge is told from the inner one in every drawing: hatched. `id` is its own in each drawing of a page. */
export function OuterHatch({ id }: { readonly id: string }) {
  return (
    <defs>
      <pattern id={id} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <rect class="loft-fill" width="7" height="7" />
        <path class="loft-hatch" d="M0 0 V7" />
      </pattern>
    </defs>
  );
}
