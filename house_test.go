// Package dropleg_test holds the tests on the code itself: who imports whom, how long
// things are, what may not be compared. What the house is, stands in this file; the
// other house_*_test.go files hold it.
package dropleg_test

// arrows say who may import whom: a < b lets b import a and all that a may import.
// Commas join names, a chain is read pair by pair, a !< b says that no way leads from
// a up to b. NONE stands for nothing.
//
// Do not change this text to mend a build. A new arrow is a decision: it comes in a
// commit of its own that says why.
const arrows = `
	NONE < cite, unit, geom, num, web;

	unit < document;
	cite, unit < formula;
	formula, num < air < element < network;
	document < network;
	air < vessel;
	formula < solid;

	cite, unit, geom, document, formula < catalog < job;
	job, network < model < demand < flow;
	job < example, intake, parts, store, fit;

	demand < day < water, energy;
	job, solid < hold;
	parts, num < buy, cut;
	hold, parts, buy, cut < purchase < quote;
	flow, water, energy, quote < study;

	study < cure < check, route, size;
	num < route, size, find;
	study, vessel < build, prove, keep, find;
	cure < find;
	find, prove < calibrate < screen;
	fit, cure, check, plan, prove < extend < screen;
	fit, study < start, route;
	route, size < plan < start;
	element, vessel, solid, catalog < calc;

	geom < scene < page;
	scene, study < draw;
	page, draw, check, build, prove, keep, find < sheet;
	page, draw, check, plan, build, prove, keep, intake < screen < sheet;

	store, study < desk;
	NONE < trust;
	sheet, screen, start, calc, intake, desk, trust, fit, example, web < server;
	server, example < cli < cmd;

	study !< store;
	scene !< job;
	check !< size;
	network !< job;
`

// floors name each package of the arrows on the one folder where it stands, lowest
// floor first. A package imports only from its own floor and from those below, and
// its sub-folders belong to it (num/sparse is num).
var floors = []floor{
	{"web", "web"},
	{"engine", "cite unit document geom num formula air element network vessel solid"},
	{"internal/shop", "catalog job intake fit example model"},
	{"internal/answer", "demand flow day water energy hold parts buy cut purchase quote study"},
	{"internal/decide", "cure check route size plan start build prove keep find calibrate extend calc"},
	{"internal/show", "scene page draw screen sheet"},
	{"internal/edge", "store desk trust server cli"},
	{"cmd", "cmd"},
}

// engineMayUse lists the foreign modules that the engine may import: it is meant to be
// used alone, and brings along nothing but mathematics.
var engineMayUse = []string{"gonum.org/v1/gonum"}

// badFolders are names that say nothing about what is inside.
var badFolders = []string{"util", "utils", "common", "helper", "helpers", "manager", "base", "misc", "types"}

// The lengths of files and functions in lines: above plain a reason is asked for
// below, above most there is none. Tests keep to most alone; generated files are free.
const (
	filePlain, fileMost = 300, 600
	funcPlain, funcMost = 50, 100
)

// longFiles are the files above filePlain, each with the reason why it is one thing.
var longFiles = map[string]string{
	"engine/unit/table.go": "one table: every unit accepted, with its factor and its spellings",
}

// longFuncs are the functions above funcPlain, as "path name" or "path Type.name",
// each with the reason why it is one step.
var longFuncs = map[string]string{}

// sameWords are comparisons with a text that happens to be the name of a catalogue
// kind and means something else there, as "path word", each with what it means.
var sameWords = map[string]string{
	"internal/decide/find/csv.go receiver": "a column of a table of readings",
}

// placeWords may stand in no file: they speak of one machine, not of the project.
// They are put together here so that this file passes as well.
var placeWords = []string{
	"/wo" + "rk/", `\bfa` + `rm\b`,
	`proxy\.gol` + `ang\.org`, `registry\.npm` + `js\.org`, `deb\.deb` + `ian\.org`, `pyp` + `i\.org`,
}
