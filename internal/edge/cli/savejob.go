package cli

import (
	"fmt"

	"dropleg/internal/shop/job"
)

// saveJob writes a job to a file; over one that is there only by force.
func saveJob(j *job.Job, file string, force bool) error {
	text, err := j.Encode()
	if err != nil {
		return fmt.Errorf("writing %s: %w", file, err)
	}
	return save(file, text, force)
}

// handOver writes a new job to the file that is named for it; without one it is given back
// for the answer to hold.
func handOver(j *job.Job, file string, force bool) (*job.Job, error) {
	if file == "" {
		return j, nil
	}
	return nil, saveJob(j, file, force)
}
