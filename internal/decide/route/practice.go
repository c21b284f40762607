package route

// The practice of laying lines, in metres: common practice of the trade, with no source
// beside it.
const (
	offWall   = 0.08 // centre of a line from the wall's face
	underTop  = 0.20 // under the ceiling: a leg leaves a main from the top
	handReach = 3.50 // over the floor: a main within reach of a ladder
	clearHead = 0.10 // from the frame of a door or window
	clearSide = 0.10 // from posts, beams, lifts, machines
	clearHot  = 0.30 // from electrical panels and flues
	legRise   = 0.10 // a leg leaves the main upwards by so much
	legBeside = 0.15 // and comes down beside its take-off
	sweepRoom = 0.05 // beside the radius of a bend, for the fitting at its end
	legLeast  = 0.30 // of a leg from the main down to its outlet
	atWall    = 0.60 // what is so near a wall hangs on it
	valveOver = 0.35 // the valve of a leg over its outlet: at hand height
	valveFrom = 0.30 // the valve of a branch from its tee
	underRoom = 0.10 // more under what hangs, for the fall
	pastEnd   = 0.50 // a main goes on past its last take-off to its drain
	drainUp   = 1.00 // that drain over the floor
	drainLow  = 0.12 // the drain of an outlet below it
	merge     = 0.01 // places nearer than this are one
	wallThick = 0.60 // rooms further apart than this have no wall between them
	lowest    = 2.20 // over heads: no main hangs lower where it can be higher
)

// Prices where the job states none, in money of any currency: only their proportions
// decide where lines run. Common practice, no source.
const (
	usualMetre = 8.0  // of line with its clips
	usualElbow = 5.0  //
	usualTee   = 7.0  //
	usualValve = 18.0 //
	usualRate  = 50.0 // an hour's work
	holeWork   = 45.0 // min, a hole through a wall, sleeved and made good
	holeGoods  = 10.0 // money
	bendWork   = 4.0  // min, a corner of a line that is bent by hand
)

// What a metre and a corner cost by where they are, against the plain wall: work from a
// ladder or a platform goes slower. Common practice, no source.
const (
	highFactor    = 1.4 // above handReach
	ceilingFactor = 1.3 // hung from the ceiling or along beams instead of clipped to a wall
)
