// Package geom is the geometry of a shop and its air lines: points and
// polylines in space, outlines on the floor, walls as frames that can be
// unrolled side by side, bends, and the projections of the drawings.
//
// Main types: Point (x, y, z), Flat (x, y), Frame (a wall), Strip (walls
// unrolled). In and out: metres and radians, z up, angles on the plan
// counterclockwise from x. Sources: plane and solid geometry; nothing is taken
// from a publication. Degenerate input (no points, points that coincide, walls
// without length) gives zero or false, never NaN, as long as the coordinates are
// finite. It knows nothing of air, of parts or of drawing.
package geom
