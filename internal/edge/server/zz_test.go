package server
import ("testing";"os";"context";"fmt")
func TestZZ(t *testing.T){
 s,err:=New(Options{Source:File(os.Getenv("JOB")),Listen:os.Getenv("LISTEN")})
 if err!=nil{t.Fatal(err)}
 fmt.Println(s.URL())
 s.Run(context.Background())
}
