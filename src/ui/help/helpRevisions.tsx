// Help about newer sheets of one plan. It explains what is kept and what is shown; nothing is decided here.
export function Revisions() {
  return (
    <div class="desk-part">
      <p>
        A newer sheet of the same plant makes a new revision of the plan. Before you take it, the preview shows what
        changes against the plan in force: cables added, gone, moved, with another number, and what changed in a cell.
        Each count opens its list.
      </p>
      <ol class="help-steps">
        <li>
          A cable is known again by its number and an end, else by both ends, else by its number alone. It keeps what
          was seen of it. Two cables that exchange their numbers are told as such.
        </li>
        <li>
          A unit is known by its name, else by its hardware address or serial, else by its slot where half of its jacks
          are the same. A jack is known through a zero in front: P3 is P03.
        </li>
        <li>What the newer sheet does not name is gone from the plan. The revision before is kept as its parent.</li>
      </ol>
      <p>
        A walk that has begun stays on its own revision until somebody moves it: Report, The plan of this walk. You see
        first which cables and differences get another verdict. Every statement stays, and it can be moved back. Where
        two phones move it apart, the later move counts on all of them and the report says so, until it is moved again.
      </p>
      <p>
        Plan, The schedule as a sheet, gives it back in the columns of the sheet it was read from: an amended cell is
        red, the column Amended says what stood there, a cable that is gone is struck through, a new one stands at the
        end. Where that sheet is not on the phone it comes in columns of our own; leave the Id as it is, a new row has
        none. Brought in again, either is the same plan, and a cell that you changed is a change of it.
      </p>
    </div>
  );
}
