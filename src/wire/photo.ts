// What the page hands to the worker that makes pictures small and bare, and what comes back.

export interface PhotoRequest {
  id: number;
  picture: Blob;
  /** Longest side of the picture to keep, in pixels. */
  longSide: number;
}

export type PreparedPhoto = {
  type: 'photo';
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  width: number;
  height: number;
  thumb: { bytes: ArrayBuffer; mime: string };
};

export type PhotoFailure =
  /** A format of one phone family that other browsers cannot show; the camera can be set to JPEG. */
  | { type: 'photo-heic' }
  | { type: 'photo-unreadable' }
  /** The browser gave no canvas there; the page may have one. */
  | { type: 'photo-no-canvas' };

export interface PhotoAnswer {
  id: number;
  made: PreparedPhoto | PhotoFailure;
}
