// Where a photo lies in its frame while it is looked at closely: fitted, enlarged, moved, and which part of it a
// finger meets. Pure; nothing is drawn here.
import type { Spot } from '../../core/record/events.ts';
import { toSpot } from '../../core/report/photoMarks.ts';

export interface Box {
  width: number;
  height: number;
}
export interface Look {
  /** 1 shows the whole photo. */
  zoom: number;
  /** Part of the photo that lies in the middle of the frame. */
  centre: Spot;
}
export interface Laid extends Box {
  left: number;
  top: number;
}

export const MAX_ZOOM = 8;
export const ZOOM_STEP = 1.5;
export const WHOLE: Look = { zoom: 1, centre: { x: 0.5, y: 0.5 } };

export function zoomed(look: Look, factor: number): Look {
  return { ...look, zoom: Math.min(MAX_ZOOM, Math.max(1, look.zoom * factor)) };
}

/** In CSS pixels of the frame. A photo smaller than the frame stands in its middle; a larger one leaves no gap. */
export function layPhoto(photo: Box, frame: Box, { zoom, centre }: Look): Laid {
  const scale = Math.min(frame.width / photo.width, frame.height / photo.height) * zoom;
  const [width, height] = [photo.width * scale, photo.height * scale];
  const edge = (size: number, room: number, middle: number) =>
    size <= room ? (room - size) / 2 : Math.min(0, Math.max(room - size, room / 2 - middle * size));
  return { width, height, left: edge(width, frame.width, centre.x), top: edge(height, frame.height, centre.y) };
}

/** The part of the photo under a point of the frame; null beside the photo. */
export function pointToSpot(laid: Laid, x: number, y: number): Spot | null {
  const [sx, sy] = [(x - laid.left) / laid.width, (y - laid.top) / laid.height];
  return sx < 0 || sx > 1 || sy < 0 || sy > 1 ? null : toSpot(sx, sy);
}

/** The look after the photo was pushed by so many CSS pixels. */
export function pushed(look: Look, laid: Laid, frame: Box, dx: number, dy: number): Look {
  // From where it really lies: at an edge the centre that was asked for may be out of reach.
  const at = {
    x: (frame.width / 2 - laid.left - dx) / laid.width,
    y: (frame.height / 2 - laid.top - dy) / laid.height,
  };
  return { ...look, centre: toSpot(at.x, at.y) };
}
