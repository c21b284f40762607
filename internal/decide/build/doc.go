// Package build orders the work of putting a job up, and reads how far it has come.
//
// [Of] takes a study and gives an [Answer]: every [Step] in the order of work (supports,
// mains, drops, plant), each with its cut, its joint or its marks, whether it is done by the
// records, and what has to be tested before it is hidden.
//
// Sources: the take-off and the supports of the study; the order is common practice. It
// knows no hours and no crew, and words nothing.
package build
