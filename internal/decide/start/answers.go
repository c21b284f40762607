package start

import (
	"fmt"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Answers is what the five questions ask.
type Answers struct {
	Title      string      `json:"title,omitempty"`
	Units      string      `json:"units,omitempty" enum:"us,metric,mixed" doc:"default: metric"`
	Room       Room        `json:"room"`
	Compressor Compressor  `json:"compressor,omitzero" doc:"left out, the smallest class that does is chosen"`
	Tools      []Tool      `json:"tools,omitempty"`
	Places     []Place     `json:"places,omitempty" doc:"where air is wanted; or:"`
	Spread     int         `json:"spread,omitempty" min:"0" max:"60" doc:"that many places, evenly round the walls; with neither, one for each tool"`
	Hose       unit.Length `json:"hose_m,omitempty" min:"0" max:"100" doc:"of hoses; left out, 7.5 m, or 25 ft"`
	OutletUp   unit.Length `json:"outlet_up_m,omitempty" min:"0" max:"10" doc:"outlets over the floor; left out, 1.1 m"`
	Budget     string      `json:"budget,omitempty" doc:"a word or a sum, kept as a note"`
	Stock      string      `json:"stock,omitempty" doc:"what lines are made of; left out, one that holds its slope, in the sizes of the units"`
}

// Room is the first question: four walls by width, depth and height, or an outline.
type Room struct {
	Name      string            `json:"name,omitempty"`
	Width     unit.Length       `json:"width_m,omitempty" min:"0" max:"500" doc:"along x, inside"`
	Depth     unit.Length       `json:"depth_m,omitempty" min:"0" max:"500" doc:"along y, inside"`
	Outline   []geom.Flat       `json:"outline_m,omitempty" min:"-2000" max:"2000" doc:"in place of width and depth"`
	Height    unit.Length       `json:"height_m" above:"0" max:"50"`
	MadeOf    string            `json:"made_of,omitempty" enum:"brick,block,concrete,timber-frame,steel-frame,plasterboard,sheet"`
	Thickness *unit.Length      `json:"thickness_m,omitempty" min:"0" max:"5"`
	Climate   string            `json:"climate,omitempty" enum:"heated,unheated" doc:"default: heated"`
	Cold      *unit.Temperature `json:"cold_C,omitempty" min:"-90" max:"50" doc:"outside, on the coldest night"`
	Doors     []Door            `json:"doors,omitempty"`
}

// Door is where one goes in.
type Door struct {
	Wall   string       `json:"wall" doc:"south, east, north, west; of several that look one way south, south-2, …"`
	Along  *unit.Length `json:"along_m,omitempty" min:"0" max:"500" doc:"from the wall's left end, as seen from inside, to its near side; default: in the middle"`
	Kind   string       `json:"kind,omitempty" enum:"door,gate" doc:"default: door"`
	Width  unit.Length  `json:"width_m,omitempty" min:"0" max:"100"`
	Height unit.Length  `json:"height_m,omitempty" min:"0" max:"50"`
}

// Compressor is the second question: a class of the catalogue, or what the plate says.
type Compressor struct {
	Machine string              `json:"machine,omitempty" doc:"class of the catalogue, for what the plate does not say"`
	FreeAir *job.Flow           `json:"free_air,omitempty" doc:"delivered, at at_kPa_g"`
	At      *unit.GaugePressure `json:"at_kPa_g,omitempty" above:"0" max:"4000"`
	CutIn   *unit.GaugePressure `json:"cut_in_kPa_g,omitempty" above:"0" max:"4000"`
	CutOut  *unit.GaugePressure `json:"cut_out_kPa_g,omitempty" above:"0" max:"4000"`
	Power   *unit.Power         `json:"power_kW,omitempty" above:"0" max:"1000"`
	Volume  *unit.Volume        `json:"volume_L,omitempty" above:"0" max:"100000" doc:"of the receiver"`
	Place   *Spot               `json:"place,omitempty" doc:"left out, where the main gets shortest"`
}

// Spot is a place on a wall.
type Spot struct {
	Wall  string      `json:"wall" doc:"south, east, north, west; of several that look one way south, south-2, …"`
	Along unit.Length `json:"along_m" min:"0" max:"500" doc:"from the wall's left end, as seen from inside"`
}

// Tool is one row of the third question.
type Tool struct {
	Item  string   `json:"item" doc:"class of the catalogue"`
	Name  string   `json:"name,omitempty" doc:"default: the words of the class"`
	Count int      `json:"count,omitempty" min:"0" max:"100" doc:"default: 1"`
	At    []string `json:"at,omitempty" doc:"names of places; left out, as many places as there are of it"`
}

// Place is one row of the fourth question.
type Place struct {
	Name string `json:"name"`
	Spot
}

// Plan is a whole first job, what was assumed to make it, and what it comes to.
type Plan struct {
	Job         *job.Job     `json:"job"`
	Assumptions []Assumption `json:"assumptions"`
	Facts       []string     `json:"facts"`
}

// Assumption is what was taken for granted.
type Assumption struct {
	Words string `json:"words"`
	Key   string `json:"key,omitempty"` // of the answers, by which it can be said otherwise; "" where the drawing says it
}

// most bounds what one first plan holds.
const (
	mostPlaces  = 60
	mostTools   = 60
	mostCorners = 60
)

// Schema is the JSON Schema of answers.
func Schema() []byte { return document.Schema(Answers{}, "answers for a first dropleg job") }

// Parse reads answers strictly from their JSON; all that is wrong comes at once.
func Parse(raw []byte) (Answers, []job.Finding) {
	var a Answers
	var out []job.Finding
	for _, p := range document.Decode(raw, &a) {
		if p.Path == "" {
			p.Path = "answers"
		}
		out = append(out, finding("cannot-read", p))
	}
	return a, out
}

func finding(code string, p document.Problem) job.Finding {
	title := fmt.Sprintf("%s: read %s, want %s", p.Path, p.Read, p.Want)
	if p.Nearest != "" {
		title += "; nearest is " + p.Nearest
	}
	return job.Finding{
		Code: code, Severity: job.Fault, Title: title, Why: "Without it no plan can be made.",
		Path: p.Path, Line: p.Line, Read: p.Read, Want: p.Want, Nearest: p.Nearest,
	}
}
