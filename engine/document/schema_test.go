package document

import (
	"encoding/json"
	"testing"
)

// The schema says what Decode holds to: keys, those required, words, bounds, units.
func TestSchema(t *testing.T) {
	type bounded struct {
		Share float64 `json:"share" min:"0" max:"1" doc:"of the time"`
		shed
	}
	var got struct {
		Schema     string `json:"$schema"`
		Title      string
		Required   []string
		Additional *bool `json:"additionalProperties"`
		Properties map[string]map[string]any
		Defs       map[string]struct {
			Required   []string
			Properties map[string]map[string]any
		} `json:"$defs"`
	}
	if err := json.Unmarshal(Schema(bounded{}, "a shed"), &got); err != nil {
		t.Fatal(err)
	}
	if got.Schema != "https://json-schema.org/draft/2020-12/schema" || got.Title != "a shed" || got.Additional == nil || *got.Additional {
		t.Errorf("head %+v", got)
	}
	if len(got.Required) != 4 {
		t.Errorf("required %v", got.Required)
	}
	share := got.Properties["share"]
	if share["minimum"] != 0.0 || share["maximum"] != 1.0 || share["description"] != "of the time" {
		t.Errorf("share %v", share)
	}
	if d := got.Properties["set_kPa_g"]["description"]; d != "gauge pressure in kPa" {
		t.Errorf("set_kPa_g %v", d)
	}
	if l := got.Defs["line"]; len(l.Required) != 1 || l.Properties["size"]["enum"] == nil || l.Properties["count"]["type"] != "integer" {
		t.Errorf("line %+v", l)
	}
}

// Bounds hold while reading and for values in memory alike.
func TestBounds(t *testing.T) {
	type bounded struct {
		Share float64 `json:"share" min:"0" max:"1"`
		Wide  float64 `json:"wide_m" above:"0"`
	}
	var b bounded
	got := Decode([]byte(`{"share": 1.5, "wide_m": 0}`), &b)
	if len(got) != 2 || got[0].Nearest != "1" || got[0].Want != "a number, 0 to 1" || got[1].Want != "a number, more than 0" {
		t.Errorf("reading: %+v", got)
	}
	again := Verify(bounded{Share: 1.5})
	if len(again) != 2 || again[0].Path != "share" || again[1].Path != "wide_m" {
		t.Errorf("in memory: %+v", again)
	}
}
