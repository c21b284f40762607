import { chromium } from "playwright-core";
const [,, base, ...wanted] = process.argv;
const b = await chromium.launch({executablePath:"/usr/bin/chromium",args:["--no-sandbox","--disable-gpu","--disable-quic","--no-first-run","--disable-background-networking","--disable-component-update","--disable-sync"]});
const shots = {
 desk:{w:1440,h:900,hash:"q=pressure"}, deskd:{w:1440,h:900,hash:"q=pressure",dark:true},
 outlet:{w:1440,h:900,hash:"q=pressure&at=outlet.d"}, outletd:{w:1440,h:900,hash:"q=pressure&at=outlet.d",dark:true},
 us:{w:1440,h:900,hash:"q=air&units=us"}, buy:{w:1440,h:900,hash:"q=buy"}, hold:{w:1440,h:900,hash:"q=hold"}, dry:{w:1440,h:900,hash:"q=dry"},
 phone:{w:390,h:844,hash:"q=pressure",full:true,touch:true}, phoned:{w:390,h:844,hash:"q=pressure&at=outlet.d",full:true,dark:true,touch:true},
 cures:{w:1440,h:1500,hash:"q=pressure",do:async p=>{await p.getByText(/^all \d+/).click({force:true}); await p.locator(".finding .from summary").nth(3).click(); await p.locator(".finding").nth(3).hover();}}, zoom:{w:1440,h:900,hash:"q=pressure",do:async p=>{await p.mouse.move(200,600); for(let i=0;i<6;i++){await p.mouse.wheel(0,-160);} await p.waitForTimeout(200);}}, tablet:{w:1024,h:768,hash:"q=pressure"}, line:{w:1440,h:900,hash:"q=pressure&at=line.main-3"},
};
for (const name of wanted.length?wanted:Object.keys(shots)) {
 const s=shots[name];
 const c=await b.newContext({viewport:{width:s.w,height:s.h},colorScheme:s.dark?"dark":"light",deviceScaleFactor:s.w<500?2:1});
 const p=await c.newPage();
 p.on("console",m=>{if(["error","warning"].includes(m.type()))console.log(name,m.type(),m.text())});
 p.on("pageerror",e=>console.log(name,"PAGEERROR",e.message));
 p.on("requestfailed",r=>{ if(!r.url().includes("events")) console.log(name,"failed",r.url(),r.failure()?.errorText)});
 await p.goto(base+"#"+s.hash); await p.waitForSelector(".drawing .thing",{state:"attached",timeout:8000}).catch(()=>console.log(name,"no drawing"));
 await p.waitForTimeout(500);
 if(s.do) await s.do(p); await p.screenshot({path:`/tmp/shots/${name}.png`,fullPage:!!s.full});
 await c.close();
}
await b.close();
