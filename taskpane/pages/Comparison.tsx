export { NewComparison as Comparison } from '../compare/NewComparison';
