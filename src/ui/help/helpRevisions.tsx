// Help about newer sheets of one plan. It explains what is kept and what is shown; nothing is decided here.
export function Revisions() {
  return (
    <div class="desk-part">
      <p>
        A newer sheet of the same plant makes a new revision of the plan. Before you use it, the preview shows what
        changes against the plan in force: cables added, removed, moved, with another number, and what changed in a
        cell. Each count opens its list.
      </p>
      <ol class="help-steps">
        <li>
          A cable is recognised by its number and one end, else by both ends, else by its number alone. It keeps what
          was seen of it. Two cables whose numbers are swapped are shown as swapped.
        </li>
        <li>
          A unit is recognised by its name, else by its MAC address or serial number, else by its slot if half of its
          jacks are the same. A jack is recognised with or without leading zeros: P3 is P03.
        </li>
        <li>What the newer sheet does not name is removed from the plan. The revision before it is kept.</li>
      </ol>
      <p>
        A walk that has begun stays on its own revision until somebody moves it: Report, The plan of this walk. You see
        first which cables and differences change. Every entry stays, and the walk can be moved back. If two phones move
        it to different revisions, the later move counts on all of them and the report says so, until it is moved again.
      </p>
      <p>
        Plan, The schedule as a sheet, gives your own file back, workbook or CSV: only changed cells are touched, and
        formats, comments, formulas and other sheets stay. A changed cell is tinted, the column Amended says what was
        there, a removed cable is struck through, a new one is at the end; no row moves, and sorting keeps the marks. A
        workbook made from a CSV, or the other way round, has the same columns and none of the formats. If the file is
        not on the phone, the sheet comes in the app’s own columns; leave the Id as it is, and give a new row none.
        Imported again, each gives the same plan, with the cells you changed.
      </p>
    </div>
  );
}
