package job

import "testing"

func recorded(records ...Record) map[string]Standing {
	for i := range records {
		if records[i].Kind == "" {
			records[i].Kind = "joint"
		}
		records[i].Joint = "point.tee/branch"
	}
	return (&Job{Records: records}).Standing("joint")
}

func TestStanding(t *testing.T) {
	tight := func(id, device string, after ...ID) Record {
		return Record{ID: ID(id), Device: device, Found: "tight", After: after}
	}
	bubbles := func(id, device string, after ...ID) Record {
		return Record{ID: ID(id), Device: device, Found: "bubbles", After: after}
	}
	for name, c := range map[string]struct {
		records []Record
		found   string
		clash   int
	}{
		"in order on one device":              {[]Record{bubbles("1", "a"), tight("2", "a")}, "tight", 0},
		"two devices that knew of each other": {[]Record{bubbles("1", "a"), tight("2", "b", "1")}, "tight", 0},
		"two that did not, and disagree":      {[]Record{bubbles("1", "a"), tight("2", "b")}, "tight", 2},
		"two that did not, and agree":         {[]Record{tight("1", "a"), tight("2", "b")}, "tight", 0},
		"settled by one who saw both":         {[]Record{bubbles("1", "a"), tight("2", "b"), bubbles("3", "a", "1", "2")}, "bubbles", 0},
		"one taken back":                      {[]Record{bubbles("1", "a"), tight("2", "b"), {ID: "3", Back: "1", Device: "a"}}, "tight", 0},
		"all taken back":                      {[]Record{tight("1", "a"), {ID: "2", Back: "1"}}, "", 0},
	} {
		s := recorded(c.records...)["point.tee/branch"]
		if s.Found != c.found || len(s.Clash) != c.clash {
			t.Errorf("%s: found %q, clash of %d", name, s.Found, len(s.Clash))
		}
	}
}
