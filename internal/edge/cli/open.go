package cli

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"runtime"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/server"
	"dropleg/internal/shop/example"
)

// open starts the local server and the browser.
func (c *call) open() *cobra.Command {
	var name, listen string
	var quiet bool
	cmd := &cobra.Command{
		Use:   "open [JOB]",
		Short: "the drawing in the browser, from a server on this computer alone",
		Long: `Starts a server that only this computer can reach and opens the browser on it. The page
follows the file: save it in an editor and the drawing changes. Without JOB it shows the
job that was opened last, the first time an example. Ctrl-C ends it.`,
		Example: `  dropleg open shop.json
  dropleg open --example boat-shop --no-browser --listen 127.0.0.1:8080`,
		Args: words(0, 1, "one job file, or none"),
		RunE: func(cmd *cobra.Command, args []string) error {
			source, file, err := c.source(args, name)
			if err != nil {
				return err
			}
			s, err := server.New(server.Options{Source: source, Listen: listen})
			if err != nil {
				return err
			}
			if file != "" {
				remember(file)
			}
			return c.serve(contextOf(cmd), s, quiet)
		},
	}
	cmd.Flags().StringVar(&name, "example", "", "show a built-in example")
	cmd.Flags().StringVar(&listen, "listen", "", "address and port of this computer, such as 127.0.0.1:8080 (default: any free port)")
	cmd.Flags().BoolVar(&quiet, "no-browser", false, "only print the address")
	c.complete(cmd, "example", exampleNames())
	return cmd
}

// source is the job to show: a file that is there, standard input, an example or, of
// nothing named, the job that was opened last. file is its path where it is a file.
func (c *call) source(args []string, name string) (source server.Source, file string, err error) {
	switch {
	case len(args) == 1 && name != "":
		return nil, "", misused("open: read a job and --example; wanted one of them")
	case len(args) == 1 && args[0] == "-":
		_, data, err := c.read("-")
		return server.Fixed("standard input", data), "", err
	case len(args) == 1:
		// A file that cannot be understood is shown with its problems; one that
		// cannot be read is refused here.
		_, _, err := c.read(args[0])
		return server.File(args[0]), args[0], err
	case name == "":
		if file := c.lastJob(); file != "" {
			return server.File(file), file, nil
		}
		name = example.All()[0].Name
	}
	text, err := exampleText(name)
	return server.Fixed(name, text), "", err
}

// lastJob is the job that was opened last, if it can still be read.
func (c *call) lastJob() string {
	file := remembered()
	if file == "" {
		return ""
	}
	if _, _, err := c.read(file); err != nil {
		fmt.Fprintf(c.Err, "dropleg: %s, opened last, cannot be read any more; here is an example\n", file)
		return ""
	}
	return file
}

// serve runs the server until the context ends, and opens the browser meanwhile.
func (c *call) serve(ctx context.Context, s *server.Server, quiet bool) error {
	fmt.Fprintf(c.Out, "%s\n", s.URL())
	fmt.Fprintln(c.Err, "dropleg: Ctrl-C ends it")
	if !quiet {
		if err := c.browse(s.URL()); err != nil {
			fmt.Fprintf(c.Err, "dropleg: the browser did not start (%v); open the address above yourself\n", err)
		}
	}
	return s.Run(ctx)
}

// browse asks the system to open an address and does not wait: on some systems the
// opener lives as long as the browser, which is not ours to end.
func (c *call) browse(url string) error {
	var cmd *exec.Cmd
	switch runtime.GOOS {
	case "darwin":
		cmd = exec.Command("open", url)
	case "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", url)
	default:
		if c.Env("DISPLAY") == "" && c.Env("WAYLAND_DISPLAY") == "" {
			return errors.New("there is no display")
		}
		cmd = exec.Command("xdg-open", url)
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	return cmd.Process.Release()
}
