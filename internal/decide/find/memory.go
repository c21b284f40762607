package find

import (
	"context"
	"reflect"
	"slices"
	"sync"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// mostMinded is how many networks a Memory keeps.
const mostMinded = 4

// Memory keeps finders from one reading to the next: what a cause makes of a reading
// does not change with the readings that follow, as long as the network is the same.
// It is safe for concurrent use; its zero value is ready.
type Memory struct {
	mu   sync.Mutex
	list []*minded // newest last
}

type minded struct {
	model  *model.Model
	system unit.System
	busy   chan struct{} // holds one token while somebody uses the finder
	finder *Finder
}

// Weigh answers by the readings of a study's job. complaint is what somebody says of
// it; empty: what its records say.
func (m *Memory) Weigh(ctx context.Context, s *study.Study, system unit.System, complaint string) (*Told, error) {
	net, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	k := m.of(net, system)
	select {
	case k.busy <- struct{}{}:
		defer func() { <-k.busy }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	if k.finder == nil {
		if k.finder, err = Blank(ctx, s, system); err != nil {
			return nil, err
		}
	}
	k.finder.study = s // names may have changed, the network has not
	return k.finder.tellAll(ctx, complaint)
}

func (m *Memory) of(net *model.Model, system unit.System) *minded {
	m.mu.Lock()
	defer m.mu.Unlock()
	for i, k := range m.list {
		if k.model == net && k.system == system {
			m.list = append(slices.Delete(m.list, i, i+1), k)
			return k
		}
	}
	if n := len(m.list) - mostMinded + 1; n > 0 {
		m.list = slices.Delete(m.list, 0, n)
	}
	k := &minded{model: net, system: system, busy: make(chan struct{}, 1)}
	m.list = append(m.list, k)
	return k
}

// follow makes the readings those of the job, and keeps what is known of the ones
// that it had.
func (f *Finder) follow(ctx context.Context) error {
	all, lost := ofJob(f.study.Job(), f.bars)
	same := len(f.taken) <= len(all)
	for i := 0; same && i < len(f.taken); i++ {
		same = reflect.DeepEqual(f.taken[i], all[i])
	}
	if !same {
		f.forget()
	}
	f.lost = lost
	for _, r := range all[len(f.taken):] {
		if err := f.Add(ctx, r); err != nil {
			return err
		}
	}
	return nil
}

// Told is a search as a page shows it.
type Told struct {
	Complaint  string  `json:"complaint"`  // what was said; "" for nothing
	Understood string  `json:"understood"` // what was taken from it
	Answer     *Answer `json:"answer"`
	Taken      []Taken `json:"taken"`  // the readings and what looks showed, the newest first
	Places     []Spot  `json:"places"` // where a gauge can sit
	Uses       []Use   `json:"uses"`   // tools where they can run
	Valves     []Spot  `json:"valves"` // that part the net
	// Band is where the receiver swings, Pa gauge.
	CutIn  float64 `json:"cut_in_Pa_g"`
	CutOut float64 `json:"cut_out_Pa_g"`
}

// Taken is a reading that was weighed.
type Taken struct {
	Record job.ID `json:"record"`
	Words  string `json:"words"`
}

// Spot is a place in words.
type Spot struct {
	At    job.ID `json:"at"`
	Tool  job.ID `json:"tool,omitempty"`
	Words string `json:"words"`
}

// Use is a tool at an outlet in words.
type Use struct {
	Tool   job.ID `json:"tool"`
	Outlet job.ID `json:"outlet"`
	Words  string `json:"words"`
}

func (f *Finder) tellAll(ctx context.Context, complaint string) (*Told, error) {
	if err := f.follow(ctx); err != nil {
		return nil, err
	}
	stock := &f.rig.stock
	out := &Told{Complaint: complaint, Taken: []Taken{}, Places: []Spot{}, Uses: []Use{}, Valves: []Spot{}, CutIn: stock.cutIn, CutOut: stock.cutOut}
	if out.Complaint == "" {
		out.Complaint = complaintOf(f.study.Job())
	}
	f.sets, f.first = f.usual, nil
	if out.Complaint != "" {
		out.Understood = f.Complain(out.Complaint).Words
	}
	for i := len(f.taken) - 1; i >= 0; i-- {
		out.Taken = append(out.Taken, Taken{f.taken[i].Record, f.readWords(&f.taken[i])})
	}
	for _, p := range f.places {
		out.Places = append(out.Places, Spot{p.At, p.Tool, capital(f.place(p))})
	}
	for _, p := range f.rig.m.Pairs() {
		if !p.Later {
			out.Uses = append(out.Uses, Use{p.Tool, p.Outlet, capital(f.ran([]job.InUse{{Tool: p.Tool, Outlet: p.Outlet}}))})
		}
	}
	for _, v := range f.valves {
		out.Valves = append(out.Valves, Spot{At: v, Words: capital(f.named(v))})
	}
	var err error
	out.Answer, err = f.Answer(ctx)
	return out, err
}

// complaintOf is the newest note that complains: of the task that says so, or about a tool.
func complaintOf(j *job.Job) string {
	back := j.TakenBack()
	ix := job.NewIndex(j)
	for i := len(j.Records) - 1; i >= 0; i-- {
		r := &j.Records[i]
		if r.Kind != "note" || r.Task == job.LookedAt || back[r.ID] || r.Text == "" {
			continue
		}
		if r.Task == Complaint || slices.ContainsFunc(r.About, func(id job.ID) bool { return ix.Tool(id) != nil }) {
			return r.Text
		}
	}
	return ""
}

// Complaint is the task of a note that says what is wrong.
const Complaint = "complaint"
