// Package fit turns what a hand does on the drawing into edits of the job: walk a
// line, hang a drop leg, set plant into a line, drag, erase, draw a room.
//
// The main type is Gesture; Parse reads one from JSON ({"do": "line", …}) and
// Verbs lists them. In go an index of the job and the catalogue, out comes one
// job.Edit with the ids that it makes, or a *job.Refusal that says in people's
// words what is in the way and the nearest thing that would work.
//
// Gestures on lines are drawn on a sketch, a copy of the net; where lines meet,
// the fitting that the geometry asks for is chosen from the catalogue by role and
// ports. The edit is the difference between sketch and job, so what stays keeps
// its id. Practice (take-offs from the top, valves at hand height) is the trade's.
//
// It has no opinion on the design, sizes nothing and routes nothing.
package fit
