// Package day follows a shop through time: compressors that start and stop,
// a receiver that fills and falls, tools that come and go.
//
// Main type: Run, which carries a Plant (one store of air with the machines that
// feed it) over a list of Switches and gives a Course: what the machines did, the
// air that went in and out, how long each tool had less than it needs. What the
// tools take at a receiver pressure comes as a Table per set of running tools. March
// does the same for several stores that do not level out at once, with the network
// between them (Net) solved at every step.
//
// Between two events the flow is piecewise linear in the receiver's pressure, so
// that each piece has a closed solution: events are landed on exactly and the air
// balance holds by construction. The air is isothermal and an ideal gas (engine/vessel).
// Receivers that stand side by side count as one store.
package day
