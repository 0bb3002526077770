//! Who is told before, and who is told after.

use super::Test;
use crate::model::Job;

const WHO: &str = "Spoke to ............ at ............";

pub(super) fn first(job: &Job) -> Vec<Test> {
    let centre = match job.survey.monitored {
        Some(true) => Test::new("Receiving centre", "Put the system on test", "on test until ............"),
        Some(false) => Test::new("Receiving centre", "None watches, the survey says: ask once more", "none watches"),
        None => Test::new(
            "Receiving centre",
            "NOT ASKED whether one watches: ask, and put it on test if one does",
            "none watches, or on test until ............",
        ),
    };
    vec![
        centre.blank(WHO),
        Test::new("Customer", "Say what will sound, and when", "nobody is startled or calls for help").blank(WHO),
        Test::new("Neighbours", "Say that it will be loud", "they know").blank(WHO),
    ]
}

pub(super) fn last(job: &Job) -> Vec<Test> {
    let mut tests = Vec::new();
    if job.survey.monitored != Some(false) {
        tests.push(
            Test::new("Receiving centre", "Take the system off test", "it confirms what arrived, and normal")
                .blank(WHO),
        );
    }
    tests.push(Test::new("Customer", "Show how to set, unset and silence it", "did it alone").blank(WHO));
    tests.push(Test::new("Neighbours", "Say that it is done", "they know").blank(WHO));
    tests
}
