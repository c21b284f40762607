package cli

import (
	"os"
	"path/filepath"
	"strings"
)

// lastFile is where it is kept which job was opened last.
func lastFile() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(dir, "dropleg", "last"), nil
}

// remember keeps the path of the job being opened, or its id where it is a stored
// one. That it could not be kept is no reason to trouble anybody: next time there is
// the list of jobs instead.
func remember(job string) {
	file, err := lastFile()
	if err != nil {
		return
	}
	if _, missing := os.Stat(job); missing == nil {
		if job, err = filepath.Abs(job); err != nil {
			return
		}
	}
	if os.MkdirAll(filepath.Dir(file), 0o700) == nil {
		_ = save(file, []byte(job+"\n"), true)
	}
}

// remembered is the path or id of the job that was opened last, "" where none is known.
func remembered() string {
	file, err := lastFile()
	if err != nil {
		return ""
	}
	text, err := os.ReadFile(file)
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(text))
}
