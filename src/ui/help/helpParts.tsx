// Help about what is met between plug and jack, on blocks and along power cords. Words only; nothing here calls anything
// free of risk.
export function PartsHelp() {
  return (
    <div class="desk-part">
      <p>All of it is under More, Describe, at the jack where it is met. One undo takes one of them back.</p>
      <ol class="help-steps">
        <li>
          <strong>Adapter or tail here</strong>: one tap on a common one. Its sockets come in the walk after the unit it
          hangs on. A cable read there counts for the jack. Without a label it is called by its place.
        </li>
        <li>
          <strong>Patch lead</strong>: touch one jack, then the other; say whether you followed it by eye. Pull nothing
          to see where it goes. No leads in this bay is one act.
        </li>
        <li>
          <strong>Landed in colour order</strong>: many pairs in one act. That proves none of them: they stay open in
          the report, and what is seen or followed counts before it.
        </li>
        <li>
          <strong>Panel, block or trunk</strong>: its holes or landings at once; a panel from behind is mirrored. A
          trunk is told where you meet it: its first landing here, and at the other end if you know it. Whoever stands
          there tells the same label from there. At its landings <strong>Landed in colour order</strong> says rows of it
          in order, dead or spare, and which two are crossed.
        </li>
        <li>
          <strong>Power</strong>: describe feeds and strips, then say at an inlet where its cord goes. Two supplies on
          one feed and a strip in a strip are told by themselves. Look only: work on mains is for licensed trades, and
          local codes come first.
        </li>
      </ol>
    </div>
  );
}
