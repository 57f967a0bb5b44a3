//! The sheet in a real browser, on a phone's width and on a desk's: nothing
//! sticks out, nothing has to be pushed sideways. Where there is no headless
//! browser the test says so and passes.

use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use super::Shop;

const BROWSERS: [&str; 2] = ["chromium", "chromium-browser"];
/// A browser that has not answered by then will not.
const PATIENCE: Duration = Duration::from_secs(60);

/// A page with the sheet in a frame so wide, which writes down how wide the
/// sheet came out and how wide its plot and tables are drawn.
fn frame(sheet: &str, wide: u32) -> String {
    format!(
        "<!doctype html><body><iframe id=f width={wide} height=900 style=\"border:0\" src=\"{sheet}\"></iframe><script>\
         f.onload=()=>{{const d=f.contentDocument,e=d.documentElement;\
         const r=x=>x.getBoundingClientRect(),p=d.querySelector('.plot'),over=[...d.querySelectorAll('figure,.wide')].filter(x=>x.scrollWidth>x.clientWidth+1).length,\
         shots=[...p.querySelectorAll('circle')].map(x=>r(x).right),texts=[...p.querySelectorAll('text')],\
         clash=texts.filter(a=>texts.some(b=>a!==b&&r(a).left<r(b).left&&r(a).right>r(b).left&&r(a).top<r(b).bottom&&r(a).bottom>r(b).top)).length;\
         document.body.dataset.seen=[e.scrollWidth,e.clientWidth,d.querySelectorAll('h2').length,d.querySelectorAll('.strip svg').length,\
         over,Math.ceil(Math.max(...shots)),Math.floor(Math.min(...texts.map(x=>r(x).height))),Math.floor(Math.min(...texts.map(x=>r(x).left))),clash].join(' ')}}\
         </script>"
    )
}

/// The page as the browser has it once it is loaded; none where no browser answers.
fn dump(shop: &Shop, page: &str) -> Option<String> {
    let url = format!("file://{}", shop.path(page).display());
    let mut child = BROWSERS.iter().find_map(|browser| {
        Command::new(browser)
            .args([
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-web-security",
            ])
            .args([
                "--allow-file-access-from-files",
                "--virtual-time-budget=5000",
                "--dump-dom",
            ])
            .arg(format!(
                "--user-data-dir={}",
                shop.path("browser").display()
            ))
            .arg(&url)
            .stdin(Stdio::null())
            .stdout(std::fs::File::create(shop.path("dump.html")).unwrap())
            .stderr(Stdio::null())
            .spawn()
            .ok()
    })?;
    let begun = Instant::now();
    while child.try_wait().ok()?.is_none() {
        if begun.elapsed() > PATIENCE {
            let _ = child.kill();
            let _ = child.wait();
            return None;
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    Some(shop.read("dump.html"))
}

#[test]
fn the_sheet_fits_a_phone_and_a_desk() {
    for name in ["half-way", "rest-does-nothing", "left-handed-recurve"] {
        let shop = Shop::new();
        let session = format!("{}/sample-sessions/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        shop.good(&["report", &session, "--format", "html", "-o", "sheet.html"]);
        for wide in [380, 900] {
            shop.write("frame.html", frame("sheet.html", wide));
            let Some(dump) = dump(&shop, "frame.html") else {
                println!("no headless browser answers here: the sheet was not looked at");
                return;
            };
            let seen = dump
                .split("data-seen=\"")
                .nth(1)
                .and_then(|rest| rest.split('"').next())
                .unwrap_or_else(|| panic!("{name} at {wide}: not loaded\n{dump}"));
            let n: Vec<i64> = seen.split(' ').map(|n| n.parse().unwrap()).collect();
            let [
                scroll,
                client,
                headings,
                strips,
                pushed,
                last_shot,
                letters,
                left,
                clash,
            ] = n[..]
            else {
                panic!("{name}: {seen}")
            };
            let wide = i64::from(wide);
            assert!(
                scroll <= client,
                "{name} at {wide}: {scroll} px of {client}"
            );
            assert!(
                client <= wide && client + 40 > wide,
                "{name}: {client} of {wide}"
            );
            assert!(headings >= 8 && strips >= 3, "{name} at {wide}: {seen}");
            // Nothing in it is pushed sideways: the latest shot is in sight, the
            // scale can be read, and no figure of it is written over another.
            assert_eq!(pushed, 0, "{name} at {wide}: {seen}");
            assert!(last_shot <= client, "{name} at {wide}: {seen}");
            assert!(letters >= 10 && left >= 0, "{name} at {wide}: {seen}");
            assert_eq!(clash, 0, "{name} at {wide}: {seen}");
        }
    }
}
