// Help about the work to do. It explains the order and where it ends; what a place demands is decided elsewhere.
export function WorkToDo() {
  return (
    <div class="desk-part">
      <p>
        Differences, then Work to do: one list, in the order to do it. Hazards come first, then checks still to do, then
        the work. Steps that take the same on-air circuit off are together, so it goes off once.
      </p>
      <ol class="help-steps">
        <li>
          Where sound passes, a job begins and ends with listening to the air. Phantom is off, and has drained, before a
          plug moves.
        </li>
        <li>
          <strong>Begin</strong> shows one step at a time: what to do, why, and what goes off meanwhile, by plan and as
          seen.
        </li>
        <li>
          <strong>Stop, roll back</strong> leads from any step back to the wiring as found. Phantom that a ribbon
          microphone must not get stays off.
        </li>
        <li>
          At the end check each place again and record what is there now. Steps are ticked on this phone only; the
          record goes by what was seen.
        </li>
      </ol>
      <p>
        Where only labels speak, the list has a check and no plug moves. What you may not do now waits for a maintenance
        window and keeps its place: record below the list what was agreed, with whom, where, and what may be done in it.
        The app does not watch the clock. Minutes are estimates, and what is listed as going off is what is known; there
        may be more.
      </p>
    </div>
  );
}
