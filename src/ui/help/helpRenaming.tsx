// The help page of a relabelling. Words only.

export function Renaming() {
  return (
    <div class="desk-part">
      <p>
        Circuits stay, names change. A cable is renamed when both ends are marked with the new label, the old ones are
        off, and pages and strips that name it show the new name. Until then the plan keeps the old one.
      </p>
      <ol class="help-steps">
        <li>
          Begin an audit with the occasion Relabel and import the list: a sheet with two columns (old and new, from and
          to, current and becomes), pasted lines such as 2005 -&gt; 3005, or a rule. Names can be swapped or passed on
          in a chain; a name that another cable keeps is refused. You see every row before anything is recorded.
        </li>
        <li>Print the labels from the list: two for each cable, in walking order, each with its jack.</li>
        <li>
          At a jack read the old label, put the new one beside it, and tap “New is on”, or read the new one with the
          camera. The old one stays. Do the same at the other end.
        </li>
        <li>
          “Old is off” is offered only when both ends are marked with the new one. Peel it; no blade near jacket or
          bundle.
        </li>
        <li>
          “Half done” is always in view and opens the list, nearest first: what is still to put on or take off, and
          where. “Go to” leads there in one touch, outside this audit too. An audit with half-done cables cannot be
          closed: finish them, or hand them over in words.
        </li>
        <li>“Make the new names the plan” changes the finished ones only.</li>
      </ol>
      <p>
        While names are being swapped, one text means two cables. If a new label is read alone at a jack where nobody
        put it on, the app asks: follow the cable, then say which. With permission to look only, the walk offers no
        label work.
      </p>
    </div>
  );
}
