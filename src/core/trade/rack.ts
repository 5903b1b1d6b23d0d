// Sizes of 19-inch racks. Facts with their source, nothing drawn.

/** One rack unit in millimetres: 1.75 inch (IEC 60297-3-100, EIA/ECA-310-E). */
export const RACK_UNIT_MM = 44.45;
/** Width of a front panel in millimetres: 19 inch, 482.6 mm (IEC 60297-3-100). */
export const PANEL_WIDTH_MM = 482.6;
/** Height that a full rack is taken to have when nobody says otherwise (common practice, no source). */
export const USUAL_HEIGHT_U = 42;

/**
 * How far the top edge of a unit is from the top of the rack opening, in millimetres.
 * @param u The lowest U number the unit covers in the rack's own numbering.
 */
export function slotTopMm(
  u: number,
  heightU: number,
  rackHeightU: number,
  numbering: 'bottom-up' | 'top-down',
): number {
  const slotsAbove = numbering === 'top-down' ? u - 1 : rackHeightU - (u + heightU - 1);
  return slotsAbove * RACK_UNIT_MM;
}
