// Help for what comes in as a sheet: its columns, and the check on paper. Words only.

export function Schedule() {
  return (
    <div class="desk-part">
      <p>One row a cable. A header row with names such as these; order and capitals do not matter:</p>
      <ul class="help-list">
        <li>the cable’s number: Cable, Cable No, Label, ID</li>
        <li>the from end: From, Source, with Unit and Jack (or Port), Rack, Location, U</li>
        <li>the to end: To, Destination, with the same</li>
        <li>beside them: Signal, Type, Length, Circuit, Notes, Status</li>
      </ul>
      <p>
        A list of units (name, rack, U, room, jacks) and a list of jacks (unit, jack, connector, direction) may come as
        further sheets or files, or below each other on one sheet, each under its own titles. They let the app draw
        faces to scale and know which jacks must be empty.
      </p>
      <p>
        Where a title is not understood, or misunderstood, “What each column means” in the preview lets you say what the
        sheet lists, in which row its titles stand and what each column means. The next sheet with the same titles is
        read so too, and says so; “Forget these columns” ends that.
      </p>
      <p>
        Every guess is listed by kind, with its sheet and row. Say that it is right, alone or for all of a kind, or
        otherwise: write what the cell is to say, take it as it stands, or leave it blank. Questions are answered in the
        same way. What you said is kept on this phone until the sheet is taken; after a restart choose the same file
        again. The file itself is never changed, and nothing is recorded until you take it as the plan.
      </p>
    </div>
  );
}

export function Desk() {
  return (
    <div class="desk-part">
      <p>
        Before anybody walks, the schedule is held against itself and against the rules of the trade. The list stands in
        the preview of a sheet, and under Plan, Desk check, for the plan in force; the worst comes first, each with its
        sheet and row.
      </p>
      <ul class="help-list">
        <li>numbers given twice, a jack given to two cables, both ends in one jack, an end that is missing</li>
        <li>output to output, a plug that does not fit, a signal that the jack is not made for, left without right</li>
        <li>two units in one U or outside the rack, units in no list of units</li>
        <li>runs that are too long, addresses and channel numbers that are wrong or given twice</li>
      </ul>
      <p>
        What houses do differently is yours to set under Rules: channel numbers, subnets, which jack is left, how a rack
        is counted, words of your sheets for signals, the order of the colours of pairs, the contacts of audio on RJ45.
        It begins with what is usual, and reaches the other phones of the station.
      </p>
      <p>
        It knows only what the schedule says: “What it cannot know” names the lists and columns that are missing.
        Nothing found is no word about the floor. A hazard on paper may be a real one: local codes and licensed trades
        decide.
      </p>
    </div>
  );
}
