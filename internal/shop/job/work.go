package job

import (
	"strings"

	"dropleg/engine/unit"
)

// Work is who works and what runs together.
type Work struct {
	Crew int   `json:"crew,omitempty" min:"0" max:"10000" doc:"people who can hold a tool; 0: unknown"`
	Sets []Set `json:"sets,omitempty"`
	// Hours a week the shop works.
	Hours *float64 `json:"hours_1_week,omitempty" min:"0" max:"168"`
	// Begin is when the working day begins, by the clock.
	Begin *unit.Duration `json:"begin_h,omitempty" min:"0" max:"24" doc:"by the clock; default 8"`
}

// Set is a named scenario: tools that run together, each at an outlet.
type Set struct {
	ID      ID      `json:"id" doc:"set.…"`
	Name    string  `json:"name"`
	Running []InUse `json:"running"`
}

// InUse is one tool in use at one outlet.
type InUse struct {
	Tool   ID `json:"tool"`
	Outlet ID `json:"outlet"`
}

// KeyOf names tools that run together, in their order, to remember by. It is asked for at every
// turn of a day.
func KeyOf(running []InUse) string {
	var b strings.Builder
	for _, u := range running {
		b.WriteString(string(u.Tool))
		b.WriteByte('@')
		b.WriteString(string(u.Outlet))
		b.WriteByte(' ')
	}
	return b.String()
}
