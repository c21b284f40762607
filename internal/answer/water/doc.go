// Package water follows the water of the air and the air's own temperature from the
// intake to every outlet: what falls out where and where it runs to, the pressure dew
// point along the lines against the cold they cross, what dryers leave, and the water
// class of ISO 8573-1 at each outlet.
//
// [Of] answers a cold and a warm season by mean flows: each tool's share times its rated
// flow, led along the lines as the network's own answer for that tool leads it. Water is
// kept to the last gram: taken in = drained + carried out. Ranges come of the heat that
// lines give off and of how near coolers come to the room; both are stated.
//
// Sources: engine/air for moist air; ISO 8573-1:2010 for the classes; figures of
// common practice are named so where they stand. It judges nothing.
package water
