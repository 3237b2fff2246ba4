use super::*;

fn observations(points: &[(f64, f64)]) -> Vec<Observation> {
    points
        .iter()
        .map(|(day, percent)| Observation {
            day: Days::new(*day),
            severity: Fraction::from_percent(*percent).expect("a severity"),
        })
        .collect()
}

fn check(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got} is not {want}");
}

#[test]
fn published_progress() {
    // APS Education Center, "Area under the disease progress curve" (Madden et al.), and the trapezoid rule by hand.
    type Row<'a> = (&'a [(f64, f64)], f64, f64);
    let rows: [Row; 3] = [
        (&[(0.0, 1.0), (2.0, 2.0), (5.0, 7.0), (6.0, 7.5)], 23.75, 0.0396),
        (&[(14.0, 40.0), (21.0, 80.0), (28.0, 90.0)], 1015.0, 0.725),
        (&[(0.0, 0.0), (14.0, 2.5), (28.0, 10.0), (42.0, 20.0)], 315.0, 0.075),
    ];
    for (points, area, relative) in rows {
        let points = observations(points);
        check("area", progress_area(&points), area, 0.01);
        check("relative", relative_progress_area(&points).map_or(f64::NAN, Fraction::value), relative, 1e-4);
    }
    let stairs = progress_stairs(&observations(&[(14.0, 40.0), (21.0, 80.0), (28.0, 90.0)]));
    check("stairs", stairs.unwrap_or(f64::NAN), 1470.0, 1e-9);
    // Jeger and Viljanen-Rollinson 2001: 0.01 to 0.98793 in 30 days.
    let area = two_point_area(Fraction::saturating(0.01), Fraction::saturating(0.987_930_2), Days::new(30.0));
    check("two points", area.unwrap_or(f64::NAN), 14.68996, 0.001);
    assert_eq!(two_point_area(Fraction::NONE, Fraction::WHOLE, Days::new(30.0)), None);
    assert_eq!(relative_progress_area(&observations(&[(3.0, 10.0)])), None);
}

#[test]
fn classes_of_the_fig_rust_scale() {
    // Silva et al. 2019: class 0 none, 1 to 5 %, 2 to 15, 3 to 25, 4 to 50, 5 above.
    let rows = [
        (0.0, 0),
        (0.1, 1),
        (5.0, 1),
        (5.1, 2),
        (15.0, 2),
        (20.0, 3),
        (25.1, 4),
        (50.0, 4),
        (50.1, 5),
        (100.0, 5),
    ];
    for (percent, class) in rows {
        let severity = Fraction::from_percent(percent).expect("a severity");
        assert_eq!(RustClass::of(severity).value(), class, "{percent} %");
    }
    assert_eq!(RustClass::new(6), None);
    let summary = summary(LeafCounts([10, 6, 3, 1, 0, 0])).expect("leaves");
    check("incidence", summary.incidence.as_percent(), 50.0, 1e-9);
    check("index", summary.index.as_percent(), 15.0, 1e-9);
    check("severity", summary.severity.as_percent(), 3.275, 1e-9);
}

#[test]
fn published_exact_tests() {
    // Smallest reachable p: 2 / binomial(n, k).
    for (one, other, want) in [(3, 3, 0.1), (3, 4, 0.0571), (4, 4, 0.0286), (5, 5, 0.0079)] {
        check("smallest p", smallest_p(one, other).value(), want, 1e-4);
    }
    let (pots, ground) = ([12.0, 15.0, 9.0, 20.0], [28.0, 35.0, 18.0, 40.0]);
    let (u, result) = mann_whitney(&pots, &ground).expect("a test");
    check("U", u, 1.0, 0.0);
    check("p", result.p.value(), 4.0 / 70.0, 1e-4);
    check(
        "permutation",
        permutation_of_means(&pots, &ground).map_or(f64::NAN, |result| result.p.value()),
        0.0571,
        1e-4,
    );
    assert_eq!(mann_whitney(&[], &ground), None);
    assert_eq!(mann_whitney(&[f64::NAN], &ground), None);
}
