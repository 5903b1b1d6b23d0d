// Help for what comes in as a sheet: its columns, and the check on paper. Words only.

export function Schedule() {
  return (
    <div class="desk-part">
      <p>One row for each cable, and a header row with names such as these; order and capitals do not matter:</p>
      <ul class="help-list">
        <li>the cable’s number: Cable, Cable No, Label, ID</li>
        <li>the from end: From, Source, with Unit and Jack (or Port), Rack, Location, U</li>
        <li>the to end: To, Destination, with the same</li>
        <li>beside them: Signal, Type, Length, Circuit, Notes, Status</li>
      </ul>
      <p>
        A list of units (name, rack, U, room, jacks) and a list of jacks (unit, jack, connector, direction) can come as
        further sheets or files, or below or beside each other on one sheet, each under its own header row. With them
        the app draws faces to scale and knows which jacks must be empty.
      </p>
      <p>
        A row may also be a run through panels (unit, port, panel, port, unit, port), one cable to several ends, one end
        of a cable, one pair or core, a left and right pair such as S103-L/R, or a jack of a bay or block with its
        cable. What the rows of a list are taken for is listed as one guess. Each hop of a run through panels is a cable
        of the plan; all of them keep the row’s number.
      </p>
      <p>
        The usual German, French and Spanish names are understood too. Where a name says nothing, or there is no header
        row, a list of cables is read by what is in its columns: names that come back on both sides with their jacks
        next to them, numbers, signals, lengths. Each column read so is listed as one guess.
      </p>
      <p>
        If a column is not understood, or misunderstood, say under “What each column means” in the preview what the
        sheet lists, which row is the header row and what each column means. The next sheet with the same header is read
        the same way, and says so; “Forget these columns” ends that. There you can also set what is the same in every
        row and stands in no cell, such as the rack. Untick sheets that you do not want to use.
      </p>
      <p>
        “What became of the rows” says how many rows became cables with both ends known, and lists the texts of the file
        that are not in the plan: look through them before you use it. “Look at all rows” shows the sheet as it is and
        goes to the next row with an open guess or question. Press a row to leave it out, alone, with the rows below it
        or with all rows like it, to make it the header row, or to correct a cell.
      </p>
      <p>
        Rows that may not be there any more (struck through, hidden, in a colour that the key calls removed, with such a
        word as status, note or comment, or on a sheet that is called old) are asked about once for each of these. Until
        you answer they count as in use. Dates, lost zeros and letters that look alike stand apart: one by one, or by
        column where there are many.
      </p>
      <p>
        Every guess is listed by kind, with its sheet and row. Say that it is right, one by one or for a whole kind, or
        press Correct it: write what the cell should say, use it as written, or leave it blank. Questions of one column
        stand together: one answer settles all of them, or answer text by text. Your answers are kept on this phone
        until you use the sheet as the plan; after a restart choose the same file again. The file itself is never
        changed, and nothing is recorded until you press Use as the plan.
      </p>
    </div>
  );
}

export function Desk() {
  return (
    <div class="desk-part">
      <p>
        Before anybody walks, the app checks the schedule against itself and against the rules of the trade. You find
        the list in the preview of a sheet, and under Plan, Desk check, for the plan in force; the worst comes first,
        each with its sheet and row.
      </p>
      <ul class="help-list">
        <li>duplicate numbers, a jack given to two cables, both ends in one jack, an end that is missing</li>
        <li>output to output, a plug that does not fit, a signal that the jack is not made for, left without right</li>
        <li>two units in one U or outside the rack, units in no list of units</li>
        <li>runs that are too long, wrong or duplicate addresses and channel numbers</li>
      </ul>
      <p>
        Set under Rules what your house does its own way: channel numbers, subnets, which jack is left, how a rack is
        counted, the words on your sheets for signals, the colour order of pairs, the contacts of audio on RJ45. Words
        for on-air that you add there mark circuits of your station as on-air at once, in every audit, beside the usual
        ones. The rules start with what is usual, and go to the other phones of the station.
      </p>
      <p>
        The desk check knows only what the schedule says: “What it could not check” names the lists and columns that are
        missing. Finding nothing says nothing about the racks. A hazard on paper may be a real one: local codes and
        licensed trades decide.
      </p>
    </div>
  );
}
