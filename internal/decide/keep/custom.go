package keep

import (
	"dropleg/engine/cite"
	"dropleg/internal/shop/catalog"
)

// custom is a task by what a part does. All intervals are common practice, no source; the
// maker's instructions and the law come before them.
type custom struct {
	key   string
	has   []catalog.Role
	not   []catalog.Role
	words string
	days  int     // by calendar
	hours float64 // or by running hours, whichever comes first; 0: none
	safe  bool    // the line is shut off, locked and vented first
}

func common() cite.Ref {
	return cite.Ref{Source: "common-practice", Place: "intervals of upkeep", How: cite.Common}
}

// customs lists the tasks by part, in the order of the list.
func customs() []custom {
	return []custom{
		{key: "drain", has: []catalog.Role{catalog.Drains}, not: []catalog.Role{catalog.Automatic}, words: "open the drain until only air comes", days: 7},
		{key: "watch drain", has: []catalog.Role{catalog.Drains, catalog.Automatic}, words: "see that the drain lets water out and shuts", days: 30},
		{key: "oil", has: []catalog.Role{catalog.Supplies}, words: "change the oil", days: 365, hours: 500, safe: true},
		{key: "belts", has: []catalog.Role{catalog.Supplies}, words: "look at belts and guard, tighten", days: 182, hours: 500, safe: true},
		{key: "intake", has: []catalog.Role{catalog.Supplies}, words: "clean or change the intake filter", days: 182, hours: 500, safe: true},
		{key: "relief", has: []catalog.Role{catalog.Relieves}, words: "see that the relief valve is free, sealed and in date", days: 182},
		{key: "receiver", has: []catalog.Role{catalog.Stores}, words: "look the receiver over for rust and damage; its own law sets its inspections", days: 365},
		{key: "element", has: []catalog.Role{catalog.Filters}, words: "change the filter element", days: 365, safe: true},
		{key: "bowl", has: []catalog.Role{catalog.Filters, catalog.Collects}, words: "empty the bowl and look for cracks", days: 7},
		{key: "dryer", has: []catalog.Role{catalog.Dries}, words: "clean the dryer's cooling surface, look at its drain", days: 30},
		{key: "oiler", has: []catalog.Role{catalog.Lubricates}, words: "fill the lubricator", days: 30},
		{key: "gauge", has: []catalog.Role{catalog.Gauges}, words: "hold the gauge against another", days: 365},
		{key: "valve", has: []catalog.Role{catalog.Isolates, catalog.Locks}, words: "work the shut-off, see that it locks and vents", days: 182},
	}
}

// shopWide are the tasks of the shop as a whole.
func shopWide() []custom {
	return []custom{
		{key: "walk", words: "walk the lines with everything at rest, listen and wipe with soap water", days: 91},
		{key: "timing", words: "time the compressor with everything shut: the leak in figures", days: 30},
	}
}

// hung are the tasks of hoses, couplers and beds of desiccant.
func hung() (hose, coupler, bed custom) {
	return custom{key: "hose", words: "look the hose over for cuts and swelling, ends and whip check", days: 91},
		custom{key: "coupler", words: "see that the coupler latches, does not leak and is not worn", days: 91},
		custom{key: "desiccant", words: "change the desiccant", days: 182, safe: true}
}
