package job

// Plan is a named alternative that shares the survey: edits on top of the job.
type Plan struct {
	ID    ID         `json:"id" doc:"plan.…"`
	Name  string     `json:"name"`
	Edits []EditForm `json:"edits"`
}
