package prove

import (
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// The states of a joint.
const (
	NotChecked = "not-checked"
	Tight      = "tight"
	Bubbles    = "bubbles"
	Mended     = "mended" // and to be checked again
	Clash      = "clash"  // two found different things, neither knowing of the other
)

// Joint is a joint of the take-off with what was found at it.
type Joint struct {
	*parts.Joint
	Found string        `json:"found"`
	Last  *job.Record   `json:"last,omitempty"`
	Clash []*job.Record `json:"clash,omitempty"` // the records that disagree
	// Seen are the newest records, for the next one to name as known to its author.
	Seen []job.ID `json:"seen"`
}

// Progress counts joints by what was found.
type Progress struct {
	All     int `json:"all"`
	Tight   int `json:"tight"`
	Bubbles int `json:"bubbles"`
	Mended  int `json:"mended"`
	Clash   int `json:"clash"`
}

// Left is how many are still to be found tight.
func (p Progress) Left() int { return p.All - p.Tight }

// joints lists the joints of what stands or is planned, with their records.
func joints(j *job.Job, all *parts.Answer) ([]Joint, Progress) {
	records := j.Standing("joint")
	out := make([]Joint, 0, len(all.Joints))
	var p Progress
	for i := range all.Joints {
		if all.Joints[i].State == parts.Stub {
			continue
		}
		k := Joint{Joint: &all.Joints[i], Found: NotChecked, Seen: []job.ID{}}
		if s, ok := records[k.ID]; ok {
			k.Found, k.Last, k.Clash = s.Found, s.Last, s.Clash
			if len(s.Clash) > 0 {
				k.Found = Clash
			}
			for _, r := range s.All {
				k.Seen = append(k.Seen, r.ID)
			}
		}
		p.add(k.Found)
		out = append(out, k)
	}
	return out, p
}

func (p *Progress) add(found string) {
	p.All++
	switch found {
	case Tight:
		p.Tight++
	case Bubbles:
		p.Bubbles++
	case Mended:
		p.Mended++
	case Clash:
		p.Clash++
	}
}
