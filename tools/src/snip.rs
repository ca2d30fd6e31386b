//! Panics are faults of ours that no sheet reaches, and what a module says about one would only be read in a
//! console. Saying it costs a quarter of the module: so a panic ends at once, with WebAssembly's own trap,
//! which the loader turns into an error with a code.

use walrus::{FunctionBuilder, FunctionId, Module};

/// Parts of the names of what is called only on the way to a panic.
const ON_THE_WAY: &[&str] = &[
    "::panicking::",
    "::rust_begin_unwind",
    "::rust_panic",
    "::unwrap_failed",
    "::expect_failed",
    "::slice_error_fail",
    "::slice_index_fail",
    "::len_mismatch_fail",
    "::assert_failed",
    "::panic_on_ord_violation",
    "::panic_already_",
    "::handle_error",
    "::capacity_overflow",
    "::handle_alloc_error",
    "::rust_oom",
];

/// Lets every such function end at once; answers how many there were.
pub(super) fn panics(module: &mut Module) -> usize {
    let tells = |name: &str| ON_THE_WAY.iter().any(|part| name.contains(part));
    let found: Vec<FunctionId> = module
        .funcs
        .iter_local()
        .map(|(id, _)| id)
        .filter(|id| module.funcs.get(*id).name.as_deref().is_some_and(tells))
        .collect();
    for id in &found {
        let (name, kind) = (module.funcs.get(*id).name.clone(), module.funcs.get(*id).ty());
        if std::env::var_os("SNIP_SHOW").is_some() {
            println!("{}", name.as_deref().unwrap_or(""));
        }
        let (takes, gives) = (module.types.params(kind).to_vec(), module.types.results(kind).to_vec());
        let arguments = takes.iter().map(|one| module.locals.add(*one)).collect();
        let mut builder = FunctionBuilder::new(&mut module.types, &takes, &gives);
        builder.func_body().unreachable();
        let ends = builder.local_func(arguments);
        module.funcs.get_mut(*id).kind = walrus::FunctionKind::Local(ends);
    }
    walrus::passes::gc::run(module);
    found.len()
}
