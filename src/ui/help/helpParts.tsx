// Help about what is met between plug and jack, on blocks and along power cords. Words only; nothing here calls anything
// free of risk.
export function PartsHelp() {
  return (
    <div class="desk-part">
      <p>All of it is under More, Describe, at the jack where you find it. One undo takes back one entry.</p>
      <ol class="help-steps">
        <li>
          <strong>Adapter or tail here</strong>: one tap for a common one. Its sockets come in the walk after the unit
          it is plugged into. A cable read there counts for the jack. Without a label it is named by its place.
        </li>
        <li>
          <strong>Patch lead</strong>: touch one jack, then the other, and say whether you followed it by eye. Do not
          pull a lead to see where it goes. “No leads in this bay” is one entry.
        </li>
        <li>
          <strong>Landed in colour order</strong>: many pairs in one entry. That proves none of them: they stay open in
          the report, and what is seen or followed counts first.
        </li>
        <li>
          <strong>Panel, block or trunk</strong>: all its holes or landings at once; a panel seen from behind is
          mirrored. Enter a trunk where you find it: its first landing here, and at the other end if you know it.
          Whoever is at the other end enters the same label there. At its landings,{' '}
          <strong>Landed in colour order</strong> records rows of it in order, dead or spare, and which two are crossed.
        </li>
        <li>
          <strong>Power</strong>: describe feeds and strips, then say at an inlet where its cord goes. The app points
          out two supplies on one feed and a strip plugged into a strip. Look only: work on mains is for licensed
          trades, and local codes come first.
        </li>
      </ol>
    </div>
  );
}
