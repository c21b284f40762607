package parts

import (
	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Piece is one length of stock as it is cut: straight between two fittings, or,
// of stock that sweeps, one length with its bends. It closes:
//
//	centre to centre = cut + both take-outs + what its bends save − Missing
//
// A length that is not known is nil.
type Piece struct {
	ID             string       `json:"id"`    // "line.main-2/piece-1"
	Run            job.ID       `json:"run"`   // in which it begins
	Spans          []Span       `json:"spans"` // its share of the centre-line of each run that it passes
	Stock          string       `json:"stock"`
	Size           string       `json:"size"`
	State          State        `json:"state"`
	Room           job.ID       `json:"room,omitempty"` // of its middle
	From           PieceEnd     `json:"from"`
	To             PieceEnd     `json:"to"`
	CentreToCentre *unit.Length `json:"centre_to_centre_m,omitempty"` // along the drawing, corners sharp
	Cut            *unit.Length `json:"cut_m,omitempty"`              // from end to end as it lies
	Bends          []Bend       `json:"bends,omitempty"`
	// Allowance comes on top of Cut when the piece is taken from its coil.
	Allowance unit.Length `json:"allowance_m,omitempty"`
	// TooShort: the two fittings stand closer than their bodies allow, so that a close
	// nipple or a direct fitting has to do; Missing is what their take-outs exceed the
	// distance by, 0 where something is left to cut.
	TooShort bool        `json:"too_short,omitempty"`
	Missing  unit.Length `json:"missing_m,omitempty"`
	Notes    []string    `json:"notes,omitempty"`
}

// Between is what the two fittings of a piece want between their centres.
func (p *Piece) Between() unit.Length {
	return p.From.TakeOut + p.To.TakeOut + p.From.Insertion + p.To.Insertion
}

// Lacks is by how much they stand too close; 0 where they do not, or nothing is drawn.
func (p *Piece) Lacks() unit.Length {
	if !p.TooShort || p.CentreToCentre == nil {
		return 0
	}
	return max(0, p.Between()-*p.CentreToCentre)
}

// Span is the share of a run's centre-line that a piece stands for.
type Span struct {
	Run    job.ID       `json:"run"`
	Length *unit.Length `json:"length_m,omitempty"`
}

// PieceEnd is one end of a piece and what holds it.
type PieceEnd struct {
	Joint   string `json:"joint,omitempty"`   // "" where the end stands open
	Fitting string `json:"fitting,omitempty"` // "point.tee-1", "line.main-2/corner-1"
	Port    string `json:"port,omitempty"`
	// TakeOut is from the fitting's centre to the end of the pipe, Insertion how far
	// the pipe goes in. What is not known of them is taken as zero, and Unknown says so.
	TakeOut   unit.Length `json:"take_out_m"`
	Insertion unit.Length `json:"insertion_m"`
	Unknown   string      `json:"unknown,omitempty"`
	Source    cite.Ref    `json:"source"` // of the figures
	At        *geom.Point `json:"at_m,omitempty"`
	Mark      *Mark       `json:"mark,omitempty"` // of the fitting's centre, which is drawn on the wall
}

// Mark is a place on a wall: along it as seen from the room, up from its floor and
// off its face.
type Mark struct {
	Wall  job.ID      `json:"wall"`
	Along unit.Length `json:"along_m"`
	Up    unit.Length `json:"up_m"`
	Off   unit.Length `json:"off_m"`
}

// Bend is a sweep made in a piece.
type Bend struct {
	ID     string      `json:"id"` // "line.main-2/corner-1", or the plain place where it is
	Turn   float64     `json:"turn_deg"`
	Radius unit.Length `json:"radius_m"` // of the centre line; 0 where none is known or none can be made
	Begins unit.Length `json:"begins_m"` // from the From end of the piece to where it begins
	Arc    unit.Length `json:"arc_m"`
	Saved  unit.Length `json:"saved_m"`         // by which the sweep is shorter than its corner
	Tight  bool        `json:"tight,omitempty"` // less than the least radius: there is no more room
}

// Rule is a custom that figures rest on and no publication states.
type Rule struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Words string  `json:"words"`
	cite.Ref
}

// The customs.
const (
	// straightening is the share by which coil line lies longer than its centre-line:
	// it is straightened by hand and waves a little between its clips.
	straightening = 0.01
	// leastPiece, m, is the shortest rest that is left of a line made of several
	// lengths: a shorter one is hard to hold while it is cut and threaded.
	leastPiece = 0.15
	// tapeWraps is the greater of the two to three wraps of tape on a taper thread.
	tapeWraps = 3
	// pasteFilm, m, is the paste on a taper thread with what is wiped off, over all of the
	// thread that is of use.
	pasteFilm = 0.0005
	// rodWaste is how much more brazing rod goes than stays in the joint: the greater of
	// the two to three times of the handbook.
	rodWaste = 3
	// markReach, m, is how far off a wall a fitting may stand to be marked on it.
	markReach = 0.5
)

func rules() []Rule {
	custom := cite.Ref{Source: "common-practice", Place: "custom of the trade, from memory", How: cite.Recalled}
	return []Rule{
		{"straightening", straightening, "Line from a coil is straightened by hand and waves between its clips: 1 % of its length is added to each piece.", custom},
		{"least rest", leastPiece, "Where a line is made of several lengths and less than 150 mm would be left, the last two share.", custom},
		{"wraps of tape", tapeWraps, "Three wraps of tape go on each taper thread, round its gauge diameter.", custom},
		{"film of paste", pasteFilm, "Paste instead of tape: half a millimetre on the thread, with what is wiped off.", custom},
		{"rod that goes", rodWaste, "Of brazing rod three times goes what stays in the joint.", cite.Ref{Source: "copper-handbook", Place: "table 14.11, note: two to three times", How: cite.Read}},
		{"flux", catalog.FluxPerSolder, "Of flux goes 2 oz to a pound of solder.", catalog.FluxRef()},
	}
}
