/*
 * Runs before anything waits, right after Office.js. Our scripts are modules and come later than the program may ask
 * for its first function: without this it would be told that there is none, and would not ask again. And the program
 * wants to hear soon that somebody listens for its being ready.
 */
if (typeof CustomFunctions !== 'undefined') CustomFunctions.delayInitialization?.();
if (typeof Office !== 'undefined') Office.onReady();
