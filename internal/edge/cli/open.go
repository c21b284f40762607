package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/server"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/catalog"
)

// opening is what the command open is asked for.
type opening struct {
	example, listen string
	network, quiet  bool
	trusted, anew   bool
}

// open starts the local server and the browser.
func (c *call) open() *cobra.Command {
	var o opening
	cmd := &cobra.Command{
		Use:   "open [JOB]",
		Short: "the drawing in the browser, from a server on this computer alone",
		Long: `Starts a server that only this computer can reach and opens the browser on the job. A
file becomes a stored job when it is opened the first time; after that the stored job goes
on, with its history, and follows the file: save it in an editor and the drawing changes.
The file itself is never written. Without JOB it shows the job that was opened last, the
first time the list of jobs. Ctrl-C ends it.

--network lets others on the local network in: who opens the address shown, or scans its
code, sees and changes all jobs, now and whenever the program runs so. --new-token shuts
out all who came in so far.

--trusted does the same over TLS. Phones are then asked once to trust a certificate that
this computer makes for itself; its page under Share says how. Browsers keep a page for
the time without network only where they trust it.`,
		Example: `  dropleg open shop.json
  dropleg open alder-lane-joinery --network
  dropleg open --example boat-shop --no-browser --listen 127.0.0.1:8080`,
		Args: words(0, 1, "one job, or none"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 && o.example != "" {
				return misused("open: read a job and --example; wanted one of them")
			}
			if o.anew && !o.network && !o.trusted {
				return misused("open: --new-token is for --network or --trusted")
			}
			return c.opened(contextOf(cmd), args, o)
		},
	}
	cmd.Flags().StringVar(&o.example, "example", "", "show a built-in example")
	cmd.Flags().StringVar(&o.listen, "listen", "", "address and port, such as 127.0.0.1:8080 (default: any free port here)")
	cmd.Flags().BoolVar(&o.network, "network", false, "let others on the local network in, who bring the token shown")
	cmd.Flags().BoolVar(&o.trusted, "trusted", false, "as --network, over TLS that phones are asked once to trust")
	cmd.Flags().BoolVar(&o.anew, "new-token", false, "with --network or --trusted: shut out all who were let in before")
	cmd.Flags().BoolVar(&o.quiet, "no-browser", false, "only print the address")
	c.complete(cmd, "example", exampleNames())
	return cmd
}

// opened puts the job on a desk and serves the desk until the context ends. Where
// the store does not open, the desk is in memory and the page says so.
func (c *call) opened(ctx context.Context, args []string, o opening) error {
	trouble := ""
	s, err := c.openStore(ctx, true)
	if err != nil {
		trouble = inWords(err).Error()
		fmt.Fprintf(c.Err, "dropleg: %s\ndropleg: what you do is kept in memory only; export it from the page to keep it\n", trouble)
	}
	d := desk.New(desk.Options{Store: s, Shelf: catalog.Builtin(), Thumb: server.Thumb})
	return putAway(d, s, c.served(ctx, d, args, o, trouble))
}

func (c *call) served(ctx context.Context, d *desk.Desk, args []string, o opening, trouble string) error {
	on, err := c.lay(ctx, d, args, o.example)
	if err != nil {
		return err
	}
	folder := ""
	if path := store.Path(c.Env); path != "" {
		folder = filepath.Dir(path)
	}
	s, err := server.New(server.Options{
		Desk: d, Listen: o.listen, Follow: on.follow, Trouble: trouble, Network: o.network || o.trusted,
		TLS: o.trusted, NewToken: o.anew, Folder: folder,
	})
	if err != nil {
		return err
	}
	return c.serve(ctx, s, on.id, o.quiet)
}

// lay puts the job asked for on the desk: a file that is there, standard input, a
// stored job, an example or, of nothing named, the job that was opened last. The id
// is "" where the list of jobs is to be shown.
func (c *call) lay(ctx context.Context, d *desk.Desk, args []string, name string) (laid, error) {
	if name != "" {
		text, err := exampleText(name)
		if err != nil {
			return laid{}, err
		}
		return c.layText(ctx, d, name, "example "+name, text)
	}
	word := ""
	if len(args) == 1 {
		word = args[0]
	}
	switch {
	case word == "-":
		name, data, err := c.read("-")
		if err != nil {
			return laid{}, err
		}
		return c.layText(ctx, d, name, name, data)
	case word == "":
		return c.layLast(ctx, d), nil
	}
	on, err := c.layWord(ctx, d, word)
	if err == nil {
		remember(word)
	}
	return on, err
}

// layWord puts a file on the desk, where there is one of that name, else the stored
// job.
func (c *call) layWord(ctx context.Context, d *desk.Desk, word string) (laid, error) {
	if _, err := os.Stat(word); err == nil {
		return c.layFile(ctx, d, word)
	}
	e, err := find(ctx, d, word)
	var bad *badInput
	if errors.As(err, &bad) {
		return laid{}, noJob(word, bad.problems[0].Nearest)
	}
	return laid{id: e.ID}, err
}

// layLast puts the job that was opened last on the desk, if it is still there.
func (c *call) layLast(ctx context.Context, d *desk.Desk) laid {
	word := remembered()
	if word == "" {
		return laid{}
	}
	on, err := c.layWord(ctx, d, word)
	if err != nil {
		fmt.Fprintf(c.Err, "dropleg: %s, opened last, cannot be opened any more; here is the list of jobs\n", word)
		return laid{}
	}
	return on
}

// serve runs the server until the context ends, and opens the browser meanwhile.
func (c *call) serve(ctx context.Context, s *server.Server, id string, quiet bool) error {
	address, qr, err := s.Invitation()
	if err != nil {
		return errors.Join(err, s.Close())
	}
	url := s.URL()
	if id != "" {
		url = s.JobURL(id)
	}
	fmt.Fprintf(c.Out, "%s\n", url)
	if address != "" {
		fmt.Fprintf(c.Out, "%s\n", address)
		fmt.Fprintf(c.Err, "%sdropleg: who opens the second address, or scans the code, sees and changes all jobs\n", qr)
	}
	if print := s.Fingerprint(); print != "" {
		fmt.Fprintf(c.Err, "dropleg: a phone is to trust the certificate with this fingerprint (SHA-256), and no other:\ndropleg: %s\n", print)
	}
	fmt.Fprintln(c.Err, "dropleg: Ctrl-C ends it")
	if !quiet {
		if err := c.browse(url); err != nil {
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
