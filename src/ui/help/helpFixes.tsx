// Help about the work to do. It explains the order and where it ends; what a place demands is decided elsewhere.
export function WorkToDo() {
  return (
    <div class="desk-part">
      <p>
        Differences, then Work to do: one list in the order in which it is done. Hazards are told first, then the looks
        that are owed, then the work. What takes one on-air circuit off stands together, so that it goes off once.
      </p>
      <ol class="help-steps">
        <li>
          A piece begins and ends with listening to the air, where sound may pass. Phantom is off, and gone, before a
          plug moves.
        </li>
        <li>
          <strong>Begin</strong> shows one step at a time: what to do, why, what goes off meanwhile by plan and as seen.
        </li>
        <li>
          <strong>Stop, the way back</strong> leads from any step to the floor as it was found. Phantom that a ribbon
          microphone must not have stays off.
        </li>
        <li>
          At the end look again at each place and say what is there now. Steps are ticked on this phone only; the record
          believes what is seen.
        </li>
      </ol>
      <p>
        Where labels alone speak there is a look on the list and no plug that moves. What you may not do now waits for a
        window and keeps its place: <strong>The window</strong>, below the list, takes what was agreed, with whom, where
        and what may be done in it. The app does not watch the clock. Minutes are estimates, and what is listed as going
        off is what is known, not all there may be.
      </p>
    </div>
  );
}
