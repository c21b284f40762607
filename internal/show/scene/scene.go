// CONTRACT: the drawing as data: geometry in metres, text and strokes in paper
// millimetres, colours as roles that a theme fills in.

package scene

// Scene is one drawing to scale. The same scene is painted by the browser and
// written to paper; it knows nothing of jobs but the ids it was given.
type Scene struct {
	Title  string  `json:"title"`
	Min    Point   `json:"min_m"` // extent of the geometry, without margins
	Max    Point   `json:"max_m"`
	Layers []Layer `json:"layers"` // painted in order
}

// Point is x right and y up, in metres; on paper offsets in mm it is the same form.
type Point [2]float64

// Layer holds items of one subject: "building", "obstacles", "lines", "parts", "outlets", "marks".
type Layer struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Items []Item `json:"items"`
}

// Item is one thing drawn. Exactly one of its shapes is set.
type Item struct {
	ID    string `json:"id,omitempty"`    // the thing of the job that it shows; what a click selects
	Title string `json:"title,omitempty"` // words read out and shown on hover
	Line  *Line  `json:"line,omitempty"`
	Area  *Area  `json:"area,omitempty"`
	Arc   *Arc   `json:"arc,omitempty"`
	Text  *Text  `json:"text,omitempty"`
	Mark  *Mark  `json:"mark,omitempty"`
}

// Stroke is how a line is drawn.
type Stroke struct {
	Width float64   `json:"width_mm"`
	Dash  []float64 `json:"dash_mm,omitempty"`
	Color string    `json:"color"`           // role: "ink", "faint", "wall", "line", "accent", "alarm", "ramp-0".."ramp-5", "paper", "none"
	Round bool      `json:"round,omitempty"` // round ends and corners
}

// Line is an open polyline.
type Line struct {
	Points []Point `json:"at_m"`
	Stroke Stroke  `json:"stroke"`
}

// Area is a closed outline, filled or hatched.
type Area struct {
	Points []Point `json:"at_m"`
	Stroke *Stroke `json:"stroke,omitempty"`
	Fill   string  `json:"fill,omitempty"`  // colour role
	Hatch  string  `json:"hatch,omitempty"` // "diagonal", "cross"
}

// Arc is part of a circle, anticlockwise from From to To in degrees.
type Arc struct {
	Centre Point   `json:"centre_m"`
	Radius float64 `json:"radius_m"`
	From   float64 `json:"from_deg"`
	To     float64 `json:"to_deg"`
	Stroke Stroke  `json:"stroke"`
}

// Text stands at a place, offset in paper mm, at a size in paper mm.
type Text struct {
	At     Point   `json:"at_m"`
	Offset Point   `json:"offset_mm"`
	Size   float64 `json:"size_mm"`
	Text   string  `json:"text"`
	Anchor string  `json:"anchor,omitempty"` // "start", "middle", "end"
	Turn   float64 `json:"turn_deg,omitempty"`
	Color  string  `json:"color"`
	Bold   bool    `json:"bold,omitempty"`
	// Span is the stretch that a dimension tells the length of, nothing for other words: a leaf
	// that shows a part of it has the words on that part. The page shows drawings whole.
	Span [2]Point `json:"-"`
}

// Mark is a symbol of fixed paper size at a place: paths in mm about it, y up.
type Mark struct {
	At    Point   `json:"at_m"`
	Turn  float64 `json:"turn_deg,omitempty"`
	Parts []Path  `json:"parts"`
}

// Path is one path of a mark in mm: SVG path letters M L H V A Z, absolute and y up.
type Path struct {
	D      string  `json:"d_mm"`
	Stroke *Stroke `json:"stroke,omitempty"`
	Fill   string  `json:"fill,omitempty"`
}
