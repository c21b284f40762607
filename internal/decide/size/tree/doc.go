// Package tree picks one option for each place of a tree so that every end has its
// pressure in every case at the least price, with proof.
//
// Main entry: [Problem.Solve]. In: places, each with the flow of every case, its
// options with their prices, and the least pressure that it wants at its upper end
// for one at its lower end. Out: an [Answer] of one option a place, its price, a
// price beneath which nothing does, and what pressures it asks for.
//
// The method is a dynamic programme from the ends to the source over labels of price
// and pressures asked for, of which only those stay that no other beats (Bellman's
// principle; Pareto labels). It knows no air: laws come in as functions.
package tree
