// The help page of photos and voice notes. Words only.

export function Photos() {
  return (
    <div class="desk-part">
      <p>
        Photo takes a picture through the viewfinder and keeps it with the jack you are at; the walk goes on. A jack can
        have several. More, then Photos, opens them: two fingers or + enlarge, Arrow and Circle draw, Take back removes
        one from lists and reports. Drawings lie over the picture; the picture itself stays as taken.
      </p>
      <ol class="help-steps">
        <li>
          Where labels are hard to reach: More, then Photo of the whole rear. Take it close, straight on, in good light.
        </li>
        <li>Touch each jack on it, in the order the app asks. One touch is one pin.</li>
        <li>
          Later, at a desk or on another phone: Read labels from photos. Each jack is shown enlarged, with the buttons
          of the walk. The record says that the label was read from a photo, and when it was taken.
        </li>
      </ol>
      <p>
        A photo from another phone is fetched when you open it. Until it is sent, it is only on the phone that took it.
      </p>
      <p>
        A voice note lasts up to two minutes. The camera is off meanwhile. Others may be heard in it, and beside a live
        microphone what you say goes on air: write a note there.
      </p>
      <p>
        Photos show more than labels: passwords on notes and screens, addresses, faces, guest lists. The camera’s own
        place and time are taken out of each picture. When a photo is taken back, copies on other phones and the server
        stay; if it shows a password, change the password. House rules may forbid photos: ask.
      </p>
      <p>
        When the app’s storage is 80 % full it says so after each photo; from 95 % on it takes no more photos or voice
        notes. You can still record entries and written notes.
      </p>
    </div>
  );
}
