package job

import "slices"

// Standing is what the records say of one thing now.
type Standing struct {
	Found string // of the newest record
	Last  *Record
	// Clash are the newest records where devices that had not seen each other's disagree;
	// nil where there is nothing to settle.
	Clash []*Record
	All   []*Record // that nobody took back, as they came in
}

// Standing reads the records of a kind by what each is about: its joint, else its task.
// A record that was taken back counts no more, and its taking back with it.
func (j *Job) Standing(kind string) map[string]Standing {
	back := map[ID]bool{}
	for i := range j.Records {
		if r := &j.Records[i]; r.Back != "" && r.Kind == kind {
			back[r.Back], back[r.ID] = true, true
		}
	}
	all := map[string][]*Record{}
	for i := range j.Records {
		r := &j.Records[i]
		about := r.Joint
		if about == "" {
			about = r.Task
		}
		if r.Kind == kind && about != "" && !back[r.ID] {
			all[about] = append(all[about], r)
		}
	}
	out := make(map[string]Standing, len(all))
	for about, of := range all {
		out[about] = standing(of)
	}
	return out
}

// standing finds the newest of the records of one thing: those that no later one was
// written in the knowledge of. Records of one device, and old ones of none, are in order.
func standing(of []*Record) Standing {
	s := Standing{Last: of[len(of)-1], All: of}
	s.Found = s.Last.Found
	newest := []*Record{}
	for i, r := range of {
		known := slices.ContainsFunc(of[i+1:], func(later *Record) bool {
			return later.Device == r.Device || slices.Contains(later.After, r.ID)
		})
		if !known {
			newest = append(newest, r)
		}
	}
	if slices.ContainsFunc(newest, func(r *Record) bool { return r.Found != s.Found }) {
		s.Clash = newest
	}
	return s
}
