// Help about sending and receiving: what waits and why, what is held back or kept aside. Nothing is decided here.
export function Sending() {
  return (
    <div class="desk-part">
      <p>
        Entries and photos stay on this phone until the server confirms them, and are kept here after that too. The
        number under Not sent counts what is still to go. Send and receive says what waits, since when and why.
      </p>
      <ol class="help-steps">
        <li>
          With a network, entries go within seconds, and entries from others arrive as fast. Photos go alongside and
          hold no entry up. They can wait for a good network.
        </li>
        <li>
          Held back: the server, or something on the way, refused it. Each item has its reason. The app tries again once
          a day; “Send again” tries at once.
        </li>
        <li>
          Entries that do not fit: some entries from another phone are missing, so later ones are kept aside. Send from
          that phone, or make its file there and import it here.
        </li>
        <li>
          Clocks: a phone that is more than five minutes off is named. Its entries keep their order; set its clock.
        </li>
        <li>
          After a server is restored from a backup, phones compare what they have and send what is missing. Just open
          the app with a network.
        </li>
      </ol>
    </div>
  );
}
