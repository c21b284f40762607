// Package draw turns a job and its answers into drawings.
//
// Main entry points: Plan (the shop from above with its lines coloured by
// pressure and a dial at every outlet) and Stairs (the pressure from the
// receiver to one tool, a step down for each element). In: a job, the catalogue
// and the pressures that were worked out for it; every one of these may be
// missing, and then the drawing shows what is known. Out: scenes of package
// scene, with the job's ids on everything drawn, and legends as words. Sources:
// symbols come from the catalogue's kinds; the dials and the ramp are the
// project's own. It works out no pressure and has no opinion on a design:
// whether an outlet is short is told to it.
package draw
