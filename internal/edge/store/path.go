package store

import (
	"path/filepath"
	"runtime"
)

// Path says where the store lies: the file that DROPLEG_STORE names, else
// dropleg/jobs.db in the system's folder for a person's data (XDG base
// directories, Application Support, LocalAppData). Env looks a variable up. It is
// "" where no variable names a folder; [Open] then says what to set.
func Path(env func(string) string) string {
	return pathOn(runtime.GOOS, env)
}

func pathOn(system string, env func(string) string) string {
	if file := env("DROPLEG_STORE"); file != "" {
		return file
	}
	folder := dataFolder(system, env)
	if folder == "" {
		return ""
	}
	return filepath.Join(folder, "dropleg", "jobs.db")
}

func dataFolder(system string, env func(string) string) string {
	under := func(variable string, names ...string) string {
		if at := env(variable); at != "" {
			return filepath.Join(append([]string{at}, names...)...)
		}
		return ""
	}
	switch system {
	case "windows":
		if local := under("LocalAppData"); local != "" {
			return local
		}
		return under("USERPROFILE", "AppData", "Local")
	case "darwin", "ios":
		return under("HOME", "Library", "Application Support")
	}
	// The XDG specification says to ignore a relative path.
	if data := env("XDG_DATA_HOME"); filepath.IsAbs(data) {
		return data
	}
	return under("HOME", ".local", "share")
}
