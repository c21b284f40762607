package screen

import (
	"fmt"
	"reflect"
	"strings"

	"dropleg/engine/document"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// FieldGroup is fields that belong together: those of a thing itself, of the part
// at a point, of a hose.
type FieldGroup struct {
	Words  string  `json:"words"`
	Fields []Field `json:"fields"`
	// Together is set where the fields are one figure that is not there yet: they
	// are filled in all, and posted as one edit with this title.
	Together string `json:"together,omitempty"`
	// Away is the edit that takes all of it away again.
	Away *job.EditForm `json:"away,omitempty"`
}

// Field is one value of a thing that can be stated.
type Field struct {
	ID     string   `json:"id"` // the thing; "job" is the job itself
	Key    string   `json:"key"`
	Words  string   `json:"words"`
	Kind   string   `json:"kind" enum:"quantity,number,choice,several,text,flag"`
	Value  string   `json:"value"`  // as a person types it, in the units asked for; an id of choices; "yes" of a flag; "" unknown
	Chosen []string `json:"chosen"` // of several
	Unit   string   `json:"unit"`   // what a number typed without a unit counts in
	Hint   string   `json:"hint"`   // an example of what can be typed
	// Choices are all that can be chosen; of a text they are offered only.
	Choices []Choice `json:"choices"`
	Doc     string   `json:"doc"`
	Range   string   `json:"range"`   // least and most in words; "" for no bounds
	Default string   `json:"default"` // what holds while it is empty; "" not known
	From    *Origin  `json:"from,omitempty"`
	Caution string   `json:"caution,omitempty"`
	Needed  bool     `json:"needed"` // cannot be emptied
	Fixed   bool     `json:"fixed"`  // is shown, but changed elsewhere
	More    bool     `json:"more"`   // seldom wanted here
}

// section is where a group of fields stands: in the thing of an id, at a prefix of
// its keys. own is the id by which a nested thing is edited itself.
type section struct {
	prefix string
	words  string
	own    job.ID
	base   string        // what is taken off its keys then
	kind   *catalog.Kind // of the part whose fields these are
	part   *job.Part
	tools  []job.ID // that hang behind it
}

// taken are types that a form takes as one value.
var taken = []reflect.Type{reflect.TypeFor[job.Flow]()}

// place is a value of a thing with all that is known of where it stands.
type place struct {
	document.Leaf
	id    job.ID // by which it is edited; TheJob for the job itself
	key   string
	root  any // pointer to the thing that holds it
	sec   *section
	group int
}

// groups lists the fields of a thing.
func (s *Shop) groups(v *view, id job.ID) []FieldGroup {
	sections, places := s.places(id)
	out := make([]FieldGroup, len(sections))
	for i := range sections {
		out[i] = FieldGroup{Words: sections[i].words, Fields: []Field{}}
	}
	for i := range places {
		p := &places[i]
		g := &out[p.group]
		g.Fields = append(g.Fields, s.field(v, p))
		if strings.HasSuffix(p.sec.prefix, "pump_up.") {
			s.asOne(g, p)
		}
	}
	kept := out[:0]
	for _, g := range out {
		if len(g.Fields) > 0 {
			kept = append(kept, g)
		}
	}
	return kept
}

// asOne marks a group whose fields come and go together.
func (s *Shop) asOne(g *FieldGroup, p *place) {
	key := strings.TrimSuffix(p.sec.prefix, ".")
	if p.Gap != "" {
		g.Together = "stated the timed pump-up of " + s.named(p.id)
		return
	}
	form := titled("took away the timed pump-up of "+s.named(p.id), &job.Change{ID: p.id, Key: key, Value: []byte("null")})
	g.Away = &form
}

// titled is an edit with a title for the history.
func titled(title string, edit job.Edit) job.EditForm { return job.AllOf(title, edit).Form() }

// places lists the values of a thing with the sections that they stand in, those
// left out that say nothing here.
func (s *Shop) places(id job.ID) ([]section, []place) {
	root := s.subject(id)
	if root == nil {
		return nil, nil
	}
	sections := s.sections(id, root)
	var out []place
	for _, leaf := range document.Leaves(root, taken...) {
		at := -1
		for i := range sections {
			if strings.HasPrefix(leaf.Path, sections[i].prefix) && (at < 0 || len(sections[i].prefix) > len(sections[at].prefix)) {
				at = i
			}
		}
		if at < 0 || hidden(leaf, &sections[at], id) {
			continue
		}
		sec := &sections[at]
		p := place{Leaf: leaf, id: id, key: leaf.Path, root: root, sec: sec, group: at}
		if sec.own != "" {
			p.id, p.key = sec.own, strings.TrimPrefix(leaf.Path, sec.base)
		}
		if _, stated, _ := document.Get(root, p.Path); !stated && p.Of == "Part" && s.saysNothing(&p) {
			continue
		}
		out = append(out, p)
	}
	return sections, out
}

// saysNothing says that a figure of a part has no meaning for its kind, or no row of
// the catalogue to name.
func (s *Shop) saysNothing(p *place) bool {
	return senseless[p.Key] && p.seldom() || p.Key == "item" && len(s.itemChoices(p)) == 0
}

// subject is what holds the values of a thing; nil for none.
func (s *Shop) subject(id job.ID) any {
	ix := s.index
	switch id.Word() {
	case string(TheJob):
		return s.job
	case "zone":
		return ix.Zone(id)
	case "room":
		return ix.Room(id)
	case "wall":
		return ix.Wall(id)
	case "opening":
		return ix.Opening(id)
	case "obstacle":
		return ix.Obstacle(id)
	case "point":
		return ix.Point(id)
	case "line":
		return ix.Run(id)
	case "outlet":
		return ix.Outlet(id)
	case "tool":
		return ix.Tool(id)
	case "set":
		return ix.Set(id)
	case "offer":
		return ix.Offer(id)
	case "plan":
		return ix.Plan(id)
	case "record":
		return ix.Record(id)
	case "hose":
		if o := ix.OutletOfHose(id); o != nil {
			return o.Hose
		}
	case "part":
		if o := ix.OutletOfPart(id); o != nil {
			for i := range o.Hang {
				if o.Hang[i].ID == id {
					return &o.Hang[i]
				}
			}
		}
	}
	return nil
}

// sections parts a thing into groups; the first is the thing itself.
func (s *Shop) sections(id job.ID, root any) []section {
	switch t := root.(type) {
	case *job.Job:
		return []section{
			{words: "The job"},
			{prefix: "site.", words: "Site"},
			{prefix: "rules.", words: "What counts as short"},
			{prefix: "work.", words: "Work"},
			{prefix: "prices.", words: "Prices"},
			{prefix: "prices.labour.", words: "Quotation"},
			{prefix: "building.underlay.", words: "Picture of the floor plan"},
		}
	case *job.Point:
		return append(s.partSections("part.", &t.Part, "", s.behind(t.ID)), section{words: "Name and place"})
	case *job.Part:
		return s.partSections("", t, "", s.toolsAt(s.index.OutletOfPart(id)))
	case *job.Outlet:
		out := []section{{words: "Outlet"}}
		for i := range t.Hang {
			out = append(out, s.partSections(fmt.Sprintf("hang[%d].", i), &t.Hang[i], t.Hang[i].ID, t.Tools)...)
		}
		if t.Hose != nil {
			out = append(out, section{prefix: "hose.", words: "Hose", own: t.Hose.ID, base: "hose."})
		}
		return out
	}
	return []section{{words: upper(thingWords(id))}}
}

// partSections are the groups of a part: itself, and its compressor.
func (s *Shop) partSections(prefix string, p *job.Part, own job.ID, tools []job.ID) []section {
	sec := section{prefix: prefix, words: "Part", own: own, base: prefix, part: p, tools: tools}
	if k, ok := s.study.Catalog().Kind(p.Kind); ok {
		sec.kind, sec.words = &k, upper(k.Name("en"))
	}
	out := []section{sec}
	if p.Compressor != nil || sec.kind != nil && sec.kind.Has(catalog.Supplies) {
		plate, timed := sec, sec
		plate.prefix, plate.words = prefix+"compressor.", "Nameplate"
		timed.prefix, timed.words = prefix+"compressor.pump_up.", "Timed pump-up"
		out = append(out, plate, timed)
	}
	return out
}

func (s *Shop) toolsAt(o *job.Outlet) []job.ID {
	if o == nil {
		return nil
	}
	return o.Tools
}

// behind lists the tools used at the outlets of a point.
func (s *Shop) behind(point job.ID) []job.ID {
	var out []job.ID
	for _, o := range s.index.OutletsAt(point) {
		out = append(out, o.Tools...)
	}
	return out
}

// hidden says that a value is none to be stated here: ids, what the drawing holds,
// and what would have to be made first.
func hidden(l document.Leaf, sec *section, id job.ID) bool {
	switch {
	case l.Path == "id" || strings.HasSuffix(l.Path, ".id"):
		return true
	case id == TheJob && sec.prefix == "":
		return l.Path != "title" && l.Path != "note"
	case id == TheJob && strings.Contains(l.Path, "["), l.Key == "marks_px", l.Of == "Amount", l.Of == "InUse":
		return true // lists of things have their own places
	case l.Of == "Compressor" || l.Of == "PumpUp":
		return !strings.HasSuffix(sec.prefix, "compressor.") && !strings.HasSuffix(sec.prefix, "pump_up.")
	case l.Gap == "", l.Of == "Labour":
		return false
	}
	return true // a place on a wall, where it has another; a hose where there is none
}
