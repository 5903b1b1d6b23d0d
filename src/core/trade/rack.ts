// Sizes of 19-inch racks. Facts with their source, nothing drawn.

/** One rack unit in millimetres: 1.75 inch (IEC 60297-3-100, EIA/ECA-310-E). */
export const RACK_UNIT_MM = 44.45;
/** Width of a front panel in millimetres: 19 inch, 482.6 mm (IEC 60297-3-100). */
export const PANEL_WIDTH_MM = 482.6;
/** Height that a full rack is taken to have when nobody says otherwise (common practice, no source). */
export const USUAL_HEIGHT_U = 42;
