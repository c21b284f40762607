package hold

import (
	"math"

	"dropleg/engine/cite"
	"dropleg/internal/shop/catalog"
)

func common(place string) cite.Ref {
	return cite.Ref{Source: "common-practice", Place: place, How: cite.Common}
}

// The rules. Rows are those of support_spacing.csv, the reference table.
var (
	// ruleTurn: two rows were read, 6 in from a change of direction and 1 ft from the
	// joint of a fitting there (UFGS 15561A); the closer governs.
	ruleTurn = Rule{"turn", "distance_m", 0.15, cite.Ref{Source: "city-gas", Place: "any, all, clip from a change of direction (6 in)", How: cite.Read}}
	// rulePart holds on both sides of valves and of parts in the line.
	rulePart   = Rule{"part", "distance_m", 0.30, cite.Ref{Source: "common-practice", Place: "any, all, clip from valve, coupler or drop end", How: cite.Recalled}}
	ruleOutlet = Rule{"outlet", "distance_m", 0.30, cite.Ref{Source: "common-practice", Place: "any, all, clip from valve, coupler or drop end; drop ends need an anchor against the pull at a coupler", How: cite.Recalled}}
	ruleEnd    = Rule{"end", "distance_m", 0.30, common("line that ends, as at a drop end")}
	ruleFast   = Rule{"fixed-point", "count", 1, common("one support of a straight stretch holds fast, near its middle or a branch there; the others let it slide")}
	// ruleSpread is the greatest distance of the catalogue, by stock and size.
	ruleSpread = Rule{"spacing", "distance_m", 0, common("spread evenly between those that fittings ask for; the distance allowed stands with the run")}
	// ruleShort: a swan neck is held by what it hangs between.
	ruleShort    = Rule{"short", "distance_m", 0.30, common("a straight piece shorter than two clip distances gets none of its own")}
	rulePlay     = Rule{"play", "growth_m", 0.001, common("growth that clips and joints give way to")}
	ruleReach    = Rule{"reach", "distance_m", 0.5, common("a line is fixed to a wall not farther off than this")}
	rulePull     = Rule{"pull", "load_N", 500, common("jerk of a person at a hose")}
	ruleReel     = Rule{"reel", "load_N", 1000, common("reel with its hose, and the jerk of a person")}
	ruleStraight = Rule{"straightening", "share", 0.01, common("line from a coil, straightened by hand; the take-off adds it to what is cut")}
	ruleSwing    = Rule{"range", "share", 1, common("the line is laid at either end of its range: all of it counts")}
)

// practice are figures of common practice that stand beside a stricter sourced row, by
// material and nominal size.
var practice = []struct {
	material, size string
	rule           Rule
}{
	{"pe-al-pe", "3/4", Rule{"practice", "distance_m", 1.52, common("pe_al_pe, 3/4: clips with compressed-air composite line; the stricter sourced row governs")}},
}

func rules() []Rule {
	return []Rule{
		ruleTurn, rulePart, ruleOutlet, ruleEnd, ruleFast, ruleSpread, ruleShort, rulePlay,
		ruleReach, rulePull, ruleReel, ruleStraight, ruleSwing,
	}
}

const (
	// leastTurn is the angle from which a change of direction is a corner, as the
	// take-off counts it: a line follows less without a fitting.
	leastTurn = catalog.StraightOn * math.Pi / 180
	// halfClip, m, is half the width of a clip, which keeps off fittings and bends by it.
	halfClip = 0.01
	// apart, m, is the least distance between two supports: closer ones are one.
	apart = 0.1
	// steep is the share of rise in its length from which a line counts as vertical, 45°.
	steep = math.Sqrt2 / 2
	// body is half the length of a part whose size is not known, in outside diameters.
	body = 1.5
	// bodyPart, m, is that of treatment and plant, which are larger than their line.
	bodyPart = 0.1
)

// anchors are the fixings by what a wall is made of: generic words of the trade.
func anchors() []Anchor {
	no := common("fixings by wall")
	return []Anchor{
		{"", "wall material not stated", "wall material not stated", no},
		{"brick", "plug 8 mm, screw 5 x 50 mm, in the brick and not in the joint", "two plugs 10 mm, screws 8 x 80 mm", no},
		{"block", "plug for hollow block 8 mm, screw 5 x 60 mm", "two long frame plugs 10 mm, or sleeve and resin where hollow", no},
		{"concrete", "plug 8 mm, screw 5 x 50 mm, or screw anchor 6 mm", "two screw anchors 8 mm", no},
		{"timber-frame", "wood screw 5 x 50 mm into a stud, or a batten over the studs", "two wood screws 8 x 80 mm into a stud or a plank over two studs", no},
		{"steel-frame", "self-drilling screw 5.5 mm into a stud or rail, beam clamp on a column", "bracket bolted or clamped to a column or rail", no},
		{"plasterboard", "batten or rail screwed to the studs behind; hollow-wall anchor for the lightest line only", "plank over two studs; never the board alone", no},
		{"sheet", "rail on the frame behind; rivet nut or bolt through with a washer plate", "bracket on the frame behind; never the sheet alone", no},
	}
}
