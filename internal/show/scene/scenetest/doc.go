// Package scenetest compares drawings with the golden files kept for them.
//
// Main entry: Golden. In: the file beside the test and what was drawn. Out: a
// failure where they differ; with -update the file is written anew, to be looked
// at before it is committed. It draws nothing.
package scenetest
