// The help page of photos and voice notes. Words only.

export function Photos() {
  return (
    <div class="desk-part">
      <p>
        Photo takes a picture through the viewfinder and keeps it at the jack in hand; the walk goes on. Several may
        hang on one jack. More, then Photos, opens them: two fingers or + enlarge, Arrow and Circle draw, Take back
        takes one out of lists and reports. What is drawn lies over the picture, which itself stays as it was taken.
      </p>
      <ol class="help-steps">
        <li>
          Where labels are hard to reach: More, then Photo of the whole rear. Take it from near, straight, in light.
        </li>
        <li>Touch each jack on it, in the order in which it is asked for. One touch is one pin.</li>
        <li>
          Later, sitting down or on another phone: Read labels from photos. Each jack is shown enlarged, with the
          answers of the walk. The record says that the label was read off a photo, and when that was taken.
        </li>
      </ol>
      <p>
        A photo of another phone is fetched when it is opened. Until it was sent it is only on the phone that took it.
      </p>
      <p>
        A voice note holds two minutes. The camera is off meanwhile. Others may be heard in it, and beside a live
        microphone what you say goes on air: write there.
      </p>
      <p>
        Photos show more than labels: passwords on notes and screens, addresses, faces, guest lists. The camera’s own
        place and time are taken out of each picture. Copies on other phones and the server stay when a photo is taken
        back; where it shows a password, change the password. House rules may forbid photos: ask.
      </p>
      <p>
        When the app’s storage is 80 % full it says so after each photo; from 95 % on it takes no more photos and voice
        notes. Statements and written notes go on.
      </p>
    </div>
  );
}
