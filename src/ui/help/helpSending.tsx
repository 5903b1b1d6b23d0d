// Help about sending and receiving: what waits and why, what is held back or kept aside. Nothing is decided here.
export function Sending() {
  return (
    <div class="desk-part">
      <p>
        Entries and photos stay on this phone until the server says that it holds them, and are kept here after that as
        well. The number under Not sent counts them. Send and receive says what waits, since when and why.
      </p>
      <ol class="help-steps">
        <li>
          With a network, entries go within seconds and those of others arrive as fast. Photos go beside them and hold
          no entry up. They may wait for a good network.
        </li>
        <li>
          Held back: something on the way, or the server, would not take it. Each has its reason. It is tried again by
          itself once a day; “send again” tries at once.
        </li>
        <li>
          Entries that do not fit: of another phone some entries are missing, so later ones wait aside. Send from that
          phone, or make its file there and bring it in here.
        </li>
        <li>
          Clocks: a phone that is more than five minutes off is named. Its entries keep their order; set its clock.
        </li>
        <li>
          After a server was put back from a backup, phones compare what they hold and send what is missing there. You
          need to do nothing but open the app with a network.
        </li>
      </ol>
    </div>
  );
}
