// CONTRACT: typed edits, each with its inverse, the same from page, command line or plan.

package job

// Edit is one small typed change of a job. Apply returns the changed job and
// the edit that undoes it; the job given is left as it was. An error is a
// *Refusal where the edit does not fit the job.
type Edit interface {
	Apply(*Job) (after *Job, inverse Edit, err error)
	// Words tells the edit for the history: "moved outlet by the bench 0.4 m".
	Words(before *Job) string
	Form() EditForm

	// verb is the word in the form; touches lists what it writes (see Touches); do
	// applies the edit to a draft.
	verb() string
	touches() []Touch
	do(*draft) (inverse Edit, err error)
}

// blank is an empty edit of a verb, to be read into; nil for an unknown verb.
// The list is verbs.
func blank(verb string) Edit {
	switch verb {
	case "add":
		return &Add{}
	case "remove":
		return &Remove{}
	case "set":
		return &Change{}
	case "move":
		return &Move{}
	case "connect":
		return &Connect{}
	case "split":
		return &Split{}
	case "all":
		return &All{}
	case "within":
		return &Within{}
	}
	return nil
}

// verbs lists what blank knows.
func verbs() []string {
	return []string{"add", "remove", "set", "move", "connect", "split", "all", "within"}
}
