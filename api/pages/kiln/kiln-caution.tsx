/** What to mind about any kiln, once on the room's page. We judge no kiln and no room. */
export function KilnCaution() {
  return (
    <section class="caution" aria-label="Kilns">
      <h2>Hot, and it fumes</h2>
      <p>
        Open it only when it has cooled as its maker says, with gloves on; pots and shelves stay hot
        longer than they look.
      </p>
      <details>
        <summary>Fumes, gas, wiring and lifting</summary>
        <ul>
          <li>
            Clay, wax and glaze give off carbon monoxide and other fumes in the fire. Vent the kiln
            outdoors, air the room, stay out of it while it fires, and hang a carbon monoxide alarm.
          </li>
          <li>
            Kiln shelves and full boxes are heavy: two people, or a trolley. Chips of glaze cut;
            wear glasses when you knock off and grind, and grind wet.
          </li>
          <li>
            Gas, wiring, flues and where a kiln may stand are for licensed fitters. Local codes and
            your insurer come before anything written here.
          </li>
        </ul>
      </details>
    </section>
  )
}
