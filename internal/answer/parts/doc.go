// Package parts is the take-off: everything on the drawing, counted from its
// geometry, nothing typed twice and nothing left out.
//
// [Of] takes a job and the catalogue that it is read by and gives an [Answer]:
// lines by size in metres, fittings with the elbows that the corners of stick
// stock make, valves, treatment and plant, outlets, sockets and plugs, hoses.
// Each [Line] names the things it was counted from, so that the list can be
// held against the drawing both ways. What stands already, what is planned and
// what is for later are apart. Prices are the job's own list.
//
// Sources: the job's geometry and the catalogue. It does not cut lines, choose
// packs, add spares or number joints.
package parts
