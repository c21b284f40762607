package document_test

import (
	"reflect"
	"slices"
	"testing"

	"dropleg/engine/document"
	"dropleg/engine/unit"
)

type plate struct {
	Set  *unit.GaugePressure `json:"set_kPa_g,omitempty" min:"0" max:"1000" doc:"as set"`
	Flow *reading            `json:"flow,omitempty"`
}

type reading struct {
	Value float64 `json:"m3_s" min:"0"`
}

type form struct {
	ID    string      `json:"id"`
	Kind  string      `json:"kind" enum:"a,b"`
	On    *plate      `json:"on,omitempty"`
	In    plate       `json:"in"`
	At    *[2]float64 `json:"at_m,omitempty" min:"-5"`
	Tools []string    `json:"tools,omitempty"`
	Hang  []plate     `json:"hang,omitempty"`
	Count int         `json:"count,omitempty" above:"0"`
	Shut  bool        `json:"shut,omitempty"`
}

func TestLeaves(t *testing.T) {
	v := &form{Hang: []plate{{}}}
	var got []string
	gaps := map[string]string{}
	for _, l := range document.Leaves(v, reflect.TypeFor[reading]()) {
		got = append(got, l.Path)
		gaps[l.Path] = l.Gap
		if l.Form == document.FormObject {
			continue
		}
		if _, _, problems := document.Get(v, l.Path); problems != nil {
			t.Errorf("%s: %v", l.Path, problems)
		}
	}
	want := []string{
		"id", "kind", "on.set_kPa_g", "on.flow", "in.set_kPa_g", "in.flow", "at_m[0]", "at_m[1]", "tools",
		"hang[0].set_kPa_g", "hang[0].flow", "count", "shut",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%v\nwant %v", got, want)
	}
	for path, gap := range map[string]string{"on.set_kPa_g": "on", "on.flow": "on", "in.flow": "", "at_m[1]": "at_m", "hang[0].flow": ""} {
		if gaps[path] != gap {
			t.Errorf("%s: gap %q, want %q", path, gaps[path], gap)
		}
	}
}

// kPa by nist-sp811: 1e3 Pa.
func TestLeafNumbers(t *testing.T) {
	for _, l := range document.Leaves(&form{}) {
		switch l.Path {
		case "in.set_kPa_g":
			if l.SI(620) != 620e3 || string(l.File(620e3)) != "620" || l.Kind != unit.KindGauge || l.Doc != "as set" || l.Of != "plate" {
				t.Errorf("%+v", l)
			}
			if ok, near, has := l.Holds(1200); ok || near != 1000 || !has {
				t.Errorf("%v %v %v", ok, near, has)
			}
			if least, most, over, a, b := l.Bounds(); least != 0 || most != 1000 || over || !a || !b {
				t.Errorf("%v to %v", least, most)
			}
		case "count":
			if ok, _, has := l.Holds(0); ok || has {
				t.Error("0 is not above 0, and is no nearest form")
			}
			if _, _, over, has, _ := l.Bounds(); !over || !has {
				t.Error("above 0")
			}
		}
	}
}
