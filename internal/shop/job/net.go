package job

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Net is the air net: points with their parts, and runs between them.
type Net struct {
	Points []Point `json:"points"`
	Runs   []Run   `json:"runs"`
}

// Point is a place with the part that sits there.
type Point struct {
	ID   ID          `json:"id" doc:"point.…"`
	Name string      `json:"name,omitempty"`
	At   *geom.Point `json:"at_m,omitempty" min:"-2000" max:"2000" doc:"x, y, z; or:"`
	On   *OnWall     `json:"on,omitempty" doc:"on a wall"`
	Part Part        `json:"part"`
	// State: "existing", "planned" (the default when empty), "stub" (for later).
	State string `json:"state,omitempty" enum:"existing,planned,stub"`
}

// OnWall places a point on a wall, s along and h up, off its face.
type OnWall struct {
	Wall  ID          `json:"wall"`
	Along unit.Length `json:"along_m" min:"-2000" max:"2000"`
	Up    unit.Length `json:"up_m" min:"-100" max:"300" doc:"above the wall's floor"`
	Off   unit.Length `json:"off_m,omitempty" min:"-50" max:"50"`
}

// End is one end of a run: a point and the port of the part there ("" if it has only one fit).
type End struct {
	Point ID     `json:"point"`
	Port  string `json:"port,omitempty"`
}

// Run is a line between two points: one stock, one size, no branch.
type Run struct {
	ID    ID           `json:"id" doc:"line.…"`
	Name  string       `json:"name,omitempty"`
	From  End          `json:"from"`
	To    End          `json:"to"`
	Path  []geom.Point `json:"path_m,omitempty" min:"-2000" max:"2000" doc:"corners between the two points"`
	Stock string       `json:"stock"`
	Size  string       `json:"size"`
	Role  string       `json:"role" enum:"main,ring,branch,drop,drip,stub,link" doc:"link: a flexible link or plant connection"`
	State string       `json:"state,omitempty" enum:"existing,planned,stub"`
	// Length stands only where there is no drawing; the geometry is the truth otherwise.
	Length  *unit.Length `json:"length_m,omitempty" above:"0" max:"5000"`
	Support string       `json:"support,omitempty" enum:"clipped,hung,void,buried"`
	Slope   *unit.Ratio  `json:"slope,omitempty" min:"-1" max:"1" doc:"fall from From to To, 0.01 = 1 in 100; negative rises"`
	Zone    ID           `json:"zone,omitempty" doc:"default: the zone of the room it is in"`
	Rough   string       `json:"condition,omitempty" enum:"new,used"`
	Wall    *unit.Length `json:"roughness_mm,omitempty" above:"0" max:"10" doc:"of the wall as readings found it; overrides condition"`
}
