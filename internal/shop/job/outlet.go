package job

import "dropleg/engine/unit"

// Outlet is where a hose or tool connects: what hangs there, the hose plugged in, the tools used at it.
type Outlet struct {
	ID    ID     `json:"id" doc:"outlet.…"`
	Name  string `json:"name"`
	Mark  string `json:"mark,omitempty" doc:"letter or number on drawings: \"A\""`
	Point ID     `json:"point"`
	Port  string `json:"port,omitempty"`
	Hang  []Part `json:"hang,omitempty" doc:"from the line to the hand: valve, drip leg, drain, filter/regulator, coupler"`
	Hose  *Hose  `json:"hose,omitempty"`
	Tools []ID   `json:"tools,omitempty" doc:"tools used here, one at a time"`
}

// Hose is the hose or reel plugged in at an outlet.
type Hose struct {
	ID     ID          `json:"id" doc:"hose.…"`
	Item   string      `json:"item" doc:"catalogue hose"`
	Length unit.Length `json:"length_m" above:"0" max:"200"`
	Reel   bool        `json:"reel,omitempty"`
	Plug   string      `json:"plug,omitempty" doc:"coupler profile row of the plug at the wall end; empty: fixed, no coupler"`
	Socket string      `json:"socket,omitempty" doc:"coupler at the tool end; empty: screwed to the tool"`
}
