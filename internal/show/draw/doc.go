// Package draw turns a job and its answers into drawings.
//
// Main entry points: Plan (the shop from above), Elevation (the walls of a room
// unrolled), Isometric (the piping in space), Diagram (the flow of the air as a
// graph with symbols), all listed by Sights; IsometricLeaves (the piping on leaves of
// paper, broken and in parts where it is long); Thumb (a stamp for lists); Stairs (the
// pressure from the receiver to one tool). In: a job, the catalogue and the
// pressures that were worked out for it; every one of these may be missing, and
// then the drawing shows what is known. Out: scenes of package scene, with the
// job's ids on everything drawn, legends as words, and frames that lead from a place
// on a drawing back to a place in the shop. Sources: symbols come from the
// catalogue's kinds; the dials and the ramp are the project's own. It works out no
// pressure and has no opinion on a design: whether an outlet is short is told to it.
package draw
