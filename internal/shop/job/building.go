package job

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Building is the shop as far as air lines care.
type Building struct {
	Zones     []Zone     `json:"zones,omitempty"`
	Rooms     []Room     `json:"rooms,omitempty"`
	Walls     []Wall     `json:"walls,omitempty"`
	Openings  []Opening  `json:"openings,omitempty"`
	Obstacles []Obstacle `json:"obstacles,omitempty"`
	Underlay  *Underlay  `json:"underlay,omitempty"`
}

// Zone is a climate: air lines take its temperature.
type Zone struct {
	ID      ID                `json:"id" doc:"zone.…"`
	Name    string            `json:"name,omitempty"`
	Climate string            `json:"climate" enum:"heated,unheated,outside"`
	Winter  *unit.Temperature `json:"winter_C,omitempty" min:"-90" max:"60"`
	Summer  *unit.Temperature `json:"summer_C,omitempty" min:"-90" max:"70"`
}

// Room is a closed outline with a floor and a ceiling.
type Room struct {
	ID      ID          `json:"id" doc:"room.…"`
	Name    string      `json:"name,omitempty"`
	Outline []geom.Flat `json:"outline_m" min:"-2000" max:"2000" doc:"corners in order, not closed by repeating the first"`
	Floor   unit.Length `json:"floor_m" min:"-100" max:"200"`
	Ceiling unit.Length `json:"ceiling_m" min:"-100" max:"300" doc:"height above the datum"`
	Above   string      `json:"above,omitempty" enum:"open,boarded,tiled"`
	Void    unit.Length `json:"void_m,omitempty" min:"0" max:"10" doc:"height of the void over a tiled ceiling"`
	Zone    ID          `json:"zone,omitempty"`
}

// Wall is a straight wall, drawn from left to right as seen from inside.
type Wall struct {
	ID        ID          `json:"id" doc:"wall.…"`
	Name      string      `json:"name,omitempty"`
	From      geom.Flat   `json:"from_m" min:"-2000" max:"2000"`
	To        geom.Flat   `json:"to_m" min:"-2000" max:"2000"`
	Floor     unit.Length `json:"floor_m,omitempty" min:"-100" max:"200"`
	Height    unit.Length `json:"height_m" above:"0" max:"100"`
	Thickness unit.Length `json:"thickness_m" min:"0" max:"5"`
	MadeOf    string      `json:"made_of,omitempty" enum:"brick,block,concrete,timber-frame,steel-frame,plasterboard,sheet"`
	Outside   bool        `json:"outside,omitempty"`
}

// Opening is a door, window or gate in a wall.
type Opening struct {
	ID     ID          `json:"id" doc:"opening.…"`
	Wall   ID          `json:"wall"`
	Kind   string      `json:"kind" enum:"door,gate,window,gap"`
	Name   string      `json:"name,omitempty"`
	Along  unit.Length `json:"along_m" min:"0" max:"2000" doc:"from the wall's start to the near side"`
	Width  unit.Length `json:"width_m" above:"0" max:"500"`
	Sill   unit.Length `json:"sill_m,omitempty" min:"0" max:"100"`
	Height unit.Length `json:"height_m" above:"0" max:"100"`
}

// Obstacle is anything lines and hoses go round.
type Obstacle struct {
	ID      ID          `json:"id" doc:"obstacle.…"`
	Kind    string      `json:"kind" enum:"post,beam,bench,lift,door-sweep,machine,hull,electrical,flue,keep-out"`
	Name    string      `json:"name,omitempty"`
	Outline []geom.Flat `json:"outline_m" min:"-2000" max:"2000"`
	Bottom  unit.Length `json:"bottom_m,omitempty" min:"-100" max:"300"`
	Top     unit.Length `json:"top_m" min:"-100" max:"300"`
}

// Underlay is a picture or drawing of the floor plan placed by two points of known distance.
type Underlay struct {
	File  string       `json:"file"`
	Page  int          `json:"page,omitempty" min:"0"`
	Marks [2]geom.Flat `json:"marks_px" doc:"in the picture"`
	At    [2]geom.Flat `json:"at_m" min:"-2000" max:"2000" doc:"the same two on the floor"`
	Faint unit.Ratio   `json:"faint,omitempty" min:"0" max:"1" doc:"0 full, 1 invisible"`
}
